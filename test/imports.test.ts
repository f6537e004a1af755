import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const src = fileURLToPath(new URL('../src', import.meta.url));

/** The rooms from the ground up: each may import from those before it, and from itself. */
const rooms = [
  'model',
  'geodesy',
  'index',
  'route',
  'snap',
  'metrics',
  'privacy',
  'statistics',
  'areas',
  'assess',
  'truth',
  'runs',
  'formats',
  'report',
  'cli',
  'page',
];

/** Rooms that stand side by side, though one is named first above. */
const apart: readonly (readonly [room: string, other: string])[] = [
  ['snap', 'route'],
  ['statistics', 'route'],
  ['statistics', 'snap'],
  ['formats', 'assess'],
  ['formats', 'truth'],
  ['formats', 'runs'],
];

/** Files imported past their room's index: hot paths, each with what going through the index would cost. */
const hotPaths: Record<string, string> = {
  'assess/cautions.ts': 'the command would load all that judges a recording to say its version',
};

function sources(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) =>
    entry.isDirectory()
      ? sources(join(folder, entry.name))
      : /\.tsx?$/.test(entry.name)
        ? [join(folder, entry.name)]
        : [],
  );
}

interface Import {
  readonly from: string;
  readonly to: string;
}

const files = sources(src).map((file) => ({ path: relative(src, file), text: readFileSync(file, 'utf8') }));
const imports: Import[] = files.flatMap(({ path, text }) =>
  [...text.matchAll(/(?:from|import\()\s*'(\.[^']+)'/g)].map(([, target]) => {
    const stem = normalize(join(dirname(path), target));
    const to = [`${stem}.ts`, `${stem}.tsx`, `${stem}/index.ts`, stem].find((candidate) =>
      existsSync(join(src, candidate)),
    );
    return { from: path, to: to ?? stem };
  }),
);
const roomOf = (path: string) => path.split('/')[0];
/** The package's faces and the command's first line stand on top of all; package.json outside. */
const inRooms = imports.filter(
  ({ from, to }) =>
    from !== 'cli.ts' && roomOf(from) !== 'subpaths' && !to.startsWith('..') && roomOf(from) !== roomOf(to),
);
const arrow = ({ from, to }: Import) => `${from} -> ${to}`;

test('every file stands in a room that is named', () => {
  expect(files.length).toBeGreaterThan(200);
  const named = new Set([...rooms, 'subpaths', 'cli.ts']);
  expect(files.filter(({ path }) => !named.has(roomOf(path)))).toEqual([]);
});

test('imports point one way between the rooms', () => {
  const wrong = inRooms.filter(({ from, to }) => {
    const [room, other] = [roomOf(from), roomOf(to)];
    return rooms.indexOf(other) > rooms.indexOf(room) || apart.some(([a, b]) => a === room && b === other);
  });
  expect(wrong.map(arrow)).toEqual([]);
});

test('the page is built of the public API only, and nobody imports it', () => {
  const ofPage = files.filter(({ path }) => roomOf(path) === 'page');
  expect(ofPage.length).toBeGreaterThan(5);
  expect(imports.filter(({ from, to }) => (roomOf(from) === 'page') !== (roomOf(to) === 'page')).map(arrow)).toEqual(
    [],
  );
  const bare = ofPage.flatMap(({ text }) => [...text.matchAll(/(?:from|import\()\s*'(datumline[^']*)'/g)]);
  expect([...new Set(bare.map(([, name]) => name))].sort()).toEqual(['datumline', 'datumline/report']);
});

test('nothing is imported past the index of another room, but for the listed hot paths', () => {
  const deep = inRooms.filter(({ to }) => to !== `${roomOf(to)}/index.ts` && !(to in hotPaths));
  expect(deep.map(arrow)).toEqual([]);
  expect(Object.keys(hotPaths).filter((path) => !inRooms.some(({ to }) => to === path))).toEqual([]);
});

test('no file imports itself by way of others, types included', () => {
  const next = new Map<string, string[]>();
  for (const { from, to } of imports) next.set(from, [...(next.get(from) ?? []), to]);
  const circles: string[] = [];
  const done = new Set<string>();
  const visit = (file: string, path: readonly string[]): void => {
    if (path.includes(file)) circles.push([...path.slice(path.indexOf(file)), file].join(' -> '));
    else if (!done.has(file)) for (const to of next.get(file) ?? []) visit(to, [...path, file]);
    done.add(file);
  };
  for (const { path } of files) visit(path, []);
  expect(circles).toEqual([]);
});

test('a room’s index and a subpath only re-export', () => {
  const faces = files.filter(({ path }) => /^(\w+\/index|subpaths\/\w+)\.ts$/.test(path));
  const code = faces.filter(({ text }) =>
    /[^;\s]/.test(text.replace(/export (type )?(\*|\{[^}]*\}) from '[^']+';/g, '')),
  );
  expect(code.map(({ path }) => path)).toEqual([]);
});

test('no file is called utils, helpers, common or types', () => {
  expect(files.filter(({ path }) => /(^|\/)(utils?|helpers?|common|types)\.tsx?$/.test(path))).toEqual([]);
});
