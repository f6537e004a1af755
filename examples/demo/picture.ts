import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { writeBetween } from '../../bench/support/writeBetween';

/**
 * The picture of the demo's report that the README shows: `npm run demo && npx tsx examples/demo/picture.ts`. What the page
 * then says first stands beside it in words, by which a test knows whether it is current.
 */
const root = new URL('../../', import.meta.url);
const report = new URL('examples/out/demo-report.html', root);
if (!existsSync(report)) throw new Error('there is no report yet: npm run demo');
const browser = await chromium.launch({
  executablePath: '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking'],
});
try {
  const page = await browser.newPage({ viewport: { width: 1100, height: 760 }, colorScheme: 'light' });
  await page.goto(report.href);
  await page.screenshot({ path: fileURLToPath(new URL('docs/report.png', root)) });
  const [first] = await page.locator('.findings li').allInnerTexts();
  const words = first.replace(/\s+/g, ' ').replaceAll(/[[\]]/g, '').trim();
  const readme = new URL('README.md', root);
  const text = `![The report of the demo, an invented ride. It begins: ${words}](docs/report.png)`;
  writeFileSync(readme, writeBetween(readFileSync(readme, 'utf8'), 'picture', text));
} finally {
  await browser.close();
}
