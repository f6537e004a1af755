import { existsSync, readFileSync } from 'node:fs';
import * as datumline from 'datumline';
import { type assess, combine } from 'datumline';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { sameFigures } from '../support/sameFigures';

/** The one file for pages, in a browser of another engine's version, against the sources here. Needs `dist`. */
const executablePath = ['/usr/bin/chromium', '/usr/bin/chromium-browser'].find(existsSync);
if (!executablePath) console.log('No Chromium here: figures are not compared between engines.');

const root = new URL('../../', import.meta.url);
const read = (file: string) => readFileSync(new URL(file, root), 'utf8');
const names = ['a', 'b', 'c'];

/** What both are given, as text, and what both do with it. */
const demo = (run: number) => ({
  recipe: read('examples/demo/route.json'),
  files: names.map((name) => read(`examples/demo/recordings/run-${run}-receiver-${name}.gpx`)),
});
const judge = (library: typeof datumline, { recipe, files }: ReturnType<typeof demo>, names: readonly string[]) =>
  library.assess(
    library.routeFromRecipe(JSON.parse(recipe)),
    files.flatMap((text, i) => library.readGpx(text, { name: names[i] })),
  );

const library = `data:text/javascript;base64,${Buffer.from(read('dist/datumline.min.js')).toString('base64')}`;

type Judged = ReturnType<typeof assess>;

describe.skipIf(!executablePath)('in a browser as here', () => {
  let browser: Browser;
  let page: Page;
  let there: Judged;
  const here = judge(datumline, demo(1), names);

  beforeAll(async () => {
    const quiet = ['--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'];
    browser = await chromium.launch({
      executablePath,
      args: ['--no-sandbox', '--disable-gpu', '--disable-quic', ...quiet],
    });
    page = await browser.newPage();
    // as text: what the tests are compiled with knows nothing of an import in a page
    const code = `import(${JSON.stringify(library)}).then((library) => JSON.stringify((${judge})(library, ${JSON.stringify(
      demo(1),
    )}, ${JSON.stringify(names)})))`;
    there = JSON.parse((await page.evaluate(code)) as string);
  }, 60_000);

  afterAll(() => browser?.close());

  test('every figure is the same, to a millionth', () => {
    const { numbers, lines } = sameFigures(JSON.parse(JSON.stringify(here)), there, 'assessment');
    expect(numbers).toBeGreaterThan(10_000);
    expect(lines).toBeGreaterThan(5);
  });

  test("the guide's cell for a notebook gives what it prints", async () => {
    const guide = read('examples/own-metric/README.md');
    const [, cell, printed] = guide.match(
      /```js\n(const [^`]*'\.\/datumline\.min\.js'[^`]*)\nworst \/\/ → ([\d.]+)…\n```/,
    )!;
    const code = `(async () => { ${cell.replace("'./datumline.min.js'", JSON.stringify(library))}; return worst; })()`;
    expect(String(await page.evaluate(code)).startsWith(printed)).toBe(true);
  });

  test('a run judged there and one judged here are joined', () => {
    const second = judge(datumline, demo(2), names);
    expect(there.method.inputs[0].hash).toBe(second.method.inputs[0].hash);
    const summary = combine([there, second]);
    expect(summary.runs).toHaveLength(2);
    const both = combine([here, second]);
    for (const [i, { difference, verdict }] of both.pairs.entries()) {
      expect(summary.pairs[i].verdict).toBe(verdict);
      expect(summary.pairs[i].difference).toBeCloseTo(difference!, 9);
    }
  });
});
