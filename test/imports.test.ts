import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const src = fileURLToPath(new URL('../src', import.meta.url));

/** Each room may import from the rooms named here, and from itself. */
const arrows: Record<string, readonly string[]> = {
  errors: ['internal'],
  internal: ['errors'],
  geodesy: ['errors', 'internal'],
  route: ['errors', 'internal', 'geodesy'],
  formats: ['errors', 'internal', 'geodesy', 'route'],
  snap: ['errors', 'internal', 'geodesy', 'route', 'formats'],
  metrics: ['errors', 'internal', 'geodesy', 'route', 'formats', 'snap'],
  assess: ['errors', 'internal', 'geodesy', 'route', 'formats', 'snap', 'metrics'],
  report: ['errors', 'internal', 'geodesy', 'route', 'formats', 'snap', 'metrics', 'assess'],
  cli: ['errors', 'internal', 'geodesy', 'route', 'formats', 'snap', 'metrics', 'assess', 'report'],
};

function sources(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) =>
    entry.isDirectory()
      ? sources(join(folder, entry.name))
      : entry.name.endsWith('.ts')
        ? [join(folder, entry.name)]
        : [],
  );
}

const files = sources(src).map((file) => ({ file, path: relative(src, file), text: readFileSync(file, 'utf8') }));

test('imports point one way between the rooms', () => {
  const wrong: string[] = [];
  for (const { file, path, text } of files) {
    const room = path.split('/')[0];
    if (!path.includes('/')) continue; // index.ts and cli.ts stand on top of all
    expect(arrows, `the room of ${path} is named above`).toHaveProperty(room);
    for (const [, target] of text.matchAll(/(?:from|import\()\s*'(\.[^']+)'/g)) {
      const to = relative(src, normalize(join(dirname(file), target))).split('/')[0];
      if (to === '..') continue; // package.json
      if (to !== room && !arrows[room].includes(to)) wrong.push(`${path} -> ${target}`);
    }
  }
  expect(files.length).toBeGreaterThan(20);
  expect(wrong).toEqual([]);
});

test('no file is called utils, helpers, common or types', () => {
  expect(files.filter(({ path }) => /(^|\/)(utils?|helpers?|common|types)\.ts$/.test(path))).toEqual([]);
});

test('internal is never re-exported', () => {
  expect(files.filter(({ text }) => /export .* from '[^']*internal/.test(text)).map(({ path }) => path)).toEqual([]);
});
