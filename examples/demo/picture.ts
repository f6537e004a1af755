import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { writeBetween } from '../../bench/support/writeBetween';
import { launchBrowser, openPage } from '../../test/page/openPage';
import { pageWords } from '../../test/page/pageWords';

/**
 * The pictures of the demo's report and of the page, for the README and docs/page.md: `npm run build && npm run demo && npx tsx
 * examples/demo/picture.ts`. What each then says stands beside it in words, by which a test knows whether it is current.
 */
const root = new URL('../../', import.meta.url);
const place = (file: string) => fileURLToPath(new URL(file, root));
const report = new URL('examples/out/demo-report.html', root);
if (!existsSync(report)) throw new Error('there is no report yet: npm run demo');
const browser = await launchBrowser();

/** What a page shows, as WebP: a third of what it takes as PNG, for all who install the package. */
async function keep(page: Page, file: string): Promise<void> {
  const png = (await page.screenshot()).toString('base64');
  const drawing = await browser.newPage();
  const packed = await drawing.evaluate(async (data) => {
    const picture = new Image();
    picture.src = `data:image/png;base64,${data}`;
    await picture.decode();
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [picture.width, picture.height];
    canvas.getContext('2d')?.drawImage(picture, 0, 0);
    return canvas.toDataURL('image/webp', 0.7).split(',')[1];
  }, png);
  await drawing.close();
  writeFileSync(place(file), Buffer.from(packed, 'base64'));
}

try {
  const page = await browser.newPage({
    viewport: { width: 1100, height: 820 },
    deviceScaleFactor: 0.85,
    colorScheme: 'light',
  });
  await page.goto(report.href);
  await keep(page, 'docs/report.webp');
  const [first] = await page.locator('.findings li').allInnerTexts();
  const words = first.replace(/\s+/g, ' ').replaceAll(/[[\]]/g, '').trim();
  const text = `![The report of the demo, an invented ride. It begins: ${words}](docs/report.webp)`;
  const readme = place('README.md');
  writeFileSync(readme, writeBetween(readFileSync(readme, 'utf8'), 'picture', text));

  // about half its size: small to fetch, and its words can still be read
  const context = await browser.newContext({ viewport: { width: 1600, height: 940 }, deviceScaleFactor: 0.55 });
  const { page: opened } = await openPage(browser, { context });
  const names = [1, 2, 3].flatMap((run) => ['a', 'b', 'c'].map((one) => `recordings/run-${run}-receiver-${one}.gpx`));
  const files = ['test.json', 'route.json', 'areas.geojson', 'surroundings.geojson', ...names];
  await opened.setInputFiles(
    '.who input[type=file]',
    files.map((file) => place(`examples/demo/${file}`)),
  );
  await opened
    .locator('.who td[data-label="Covered"]:has-text("%")')
    .nth(names.length - 1)
    .waitFor();
  await keep(opened, 'docs/page.webp');
  const shown = `![The page with the demo open. It says: ${await pageWords(opened)}](page.webp)`;
  const guide = place('docs/page.md');
  writeFileSync(guide, writeBetween(readFileSync(guide, 'utf8'), 'page', shown));
} finally {
  await browser.close();
}
