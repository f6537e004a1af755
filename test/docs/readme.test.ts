import { existsSync, readdirSync, readFileSync } from 'node:fs';
import * as datumline from 'datumline';
import * as report from 'datumline/report';
import { expect, test } from 'vitest';
import { runExample } from '../support/runExample';

const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');

/** Every TypeScript block, with the `text` block that follows it as what it prints. */
const blocks = [...readme.matchAll(/```ts\n([\s\S]*?)```(?:\s*```text\n([\s\S]*?)```)?/g)].map(([, code, printed]) => ({
  code,
  printed,
}));

test('the README has an example that prints its result', () => {
  expect(blocks.filter(({ printed }) => printed !== undefined).length).toBeGreaterThan(0);
});

test.each(blocks)('README block %# runs and gives what it shows', async ({ code, printed }) => {
  const lines: string[] = [];
  const shown = { log: (...values: unknown[]) => lines.push(values.join(' ')) };
  const withoutImports = code.replace(/^import .* from '[^']+';\n/gm, '');
  const checked = printed === undefined ? withoutImports : `${withoutImports}\nprintedLines.length > 0 // → true`;
  await runExample(checked, { ...datumline, ...report, console: shown, printedLines: lines });
  if (printed !== undefined) expect(lines.join('\n').trimEnd()).toBe(printed.trimEnd());
});

const root = new URL('../../', import.meta.url);
const documents = [
  ...['README.md', 'DEVELOPERS.md', 'src/assess/QUESTIONS.md'],
  ...(readdirSync(new URL('examples', root), { recursive: true }) as string[])
    .filter((file) => file.endsWith('.md'))
    .map((file) => `examples/${file}`),
];

test.each(documents)('every file that %s links to is there', (document) => {
  const at = new URL(document, root);
  const links = [...readFileSync(at, 'utf8').matchAll(/\]\((?!https?:|#)([^)#\s]+)/g)].map(([, link]) => link);
  expect(links.filter((link) => !existsSync(new URL(link, at)))).toEqual([]);
});
