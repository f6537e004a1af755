import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import * as datumline from 'datumline';
import * as report from 'datumline/report';
import { expect, test } from 'vitest';
import { runExample } from '../support/runExample';

const root = new URL('../../', import.meta.url);
const read = (file: string) => readFileSync(new URL(file, root), 'utf8');
const pages = readdirSync(new URL('docs', root)).filter((file) => file.endsWith('.md'));
const guides = (readdirSync(new URL('examples', root), { recursive: true }) as string[])
  .filter((file) => file.endsWith('.md') && !file.startsWith('out'))
  .map((file) => `examples/${file}`);
const documents = ['README.md', 'DEVELOPERS.md', 'CHANGELOG.md', ...pages.map((page) => `docs/${page}`), ...guides];

/** Every TypeScript block of the README and the pages, with the `text` block that follows it as what it prints. */
const blocks = ['README.md', ...pages.map((page) => `docs/${page}`)].flatMap((document) =>
  [...read(document).matchAll(/```ts\n([\s\S]*?)```(?:\s*```text\n([\s\S]*?)```)?/g)].map(([, code, printed]) => ({
    document,
    code,
    printed,
  })),
);

test('the README has an example that prints its result', () => {
  expect(blocks.filter(({ document, printed }) => document === 'README.md' && printed !== undefined)).toHaveLength(1);
});

test.each(blocks)('block %# of $document runs and gives what it shows', async ({ code, printed }) => {
  const lines: string[] = [];
  const shown = { log: (...values: unknown[]) => lines.push(values.join(' ')) };
  const withoutImports = code.replace(/^import .* from '[^']+';\n/gm, '');
  const checked = printed === undefined ? withoutImports : `${withoutImports}\nprintedLines.length > 0 // → true`;
  mkdirSync(new URL('examples/out', root), { recursive: true });
  const files = { readFileSync, writeFileSync };
  await runExample(checked, { ...datumline, ...report, ...files, console: shown, printedLines: lines });
  if (printed !== undefined) expect(lines.join('\n').trimEnd()).toBe(printed.trimEnd());
});

test.each(documents)('every file that %s links to or names is there', (document) => {
  const at = new URL(document, root);
  const text = read(document);
  const links = [...text.matchAll(/\]\((?!https?:|#)([^)#\s]+)/g)].map(([, link]) => new URL(link, at));
  const named = [...text.matchAll(/`((?:test|src|bench|docs(?!\/api))\/[\w./-]+\.\w+)`/g)].map(
    ([, file]) => new URL(file, root),
  );
  expect([...links, ...named].filter((url) => !existsSync(url)).map(String)).toEqual([]);
});

test('the README is a page, not a book', () => {
  expect(read('README.md').split(/\s+/).length).toBeLessThanOrEqual(1200);
});

// Links must hold where the repository is not: in node_modules and on the package's page.
test('what the README and the pages link to is in the package, pictures in the repository', () => {
  const { files } = JSON.parse(read('package.json')) as { files: string[] };
  const left = files.flatMap((entry) => /^!docs\/\{(.+)\}\.md$/.exec(entry)?.[1].split(',') ?? []);
  expect(left).toContain('growth');
  const shipped = (path: string) =>
    ['README.md', 'LICENSE', 'package.json'].includes(path) ||
    files.some((entry) =>
      entry.startsWith('docs/*')
        ? /^docs\/[^/]+$/.test(path) && path.endsWith(entry.slice('docs/*'.length)) && !left.includes(path.slice(5, -3))
        : path.startsWith(`${entry}/`),
    );
  const missing = ['README.md', ...pages.map((page) => `docs/${page}`), ...guides].flatMap((document) =>
    [...read(document).matchAll(/(!?)\[[^\]]*\]\((?!https?:|#)([^)#\s]+)/g)]
      .map(([, picture, link]) => [picture, new URL(link, new URL(document, root)).href.slice(root.href.length)])
      .filter(([picture, path]) => (picture ? !existsSync(new URL(path, root)) : !shipped(path)))
      .map(([, path]) => `${document}: ${path}`),
  );
  expect(missing).toEqual([]);
});
