import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';

/** Where a Chromium is; undefined where there is none, and the tests are skipped. */
export const executablePath = ['/usr/bin/chromium', '/usr/bin/chromium-browser'].find(existsSync);
if (!executablePath) console.log('No Chromium here: the tests of the page are skipped.');

/** The built page: `npm run build` makes it. */
export const pageFile = fileURLToPath(new URL('../../dist/page.html', import.meta.url));

/** A page that is open, and what it had to complain about. */
export interface OpenedPage {
  readonly page: Page;
  /** Messages of the console, errors, and requests other than for the page itself. */
  readonly complaints: string[];
  /** Milliseconds of every task of the main thread over 50 ms since the last call. */
  longTasks(): Promise<number[]>;
}

export function launchBrowser(): Promise<Browser> {
  return chromium.launch({
    executablePath,
    args: [
      ...['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking'],
      ...['--disable-component-update', '--disable-sync'],
    ],
  });
}

/** Opens the built page from disk, in a context of its own unless one is given. */
export async function openPage(
  browser: Browser,
  {
    width = 1280,
    height = 900,
    colorScheme = 'light' as 'light' | 'dark',
    context = undefined as BrowserContext | undefined,
  } = {},
): Promise<OpenedPage> {
  const own =
    context ?? (await browser.newContext({ viewport: { width, height }, colorScheme, acceptDownloads: true }));
  const page = await own.newPage();
  // a machine may have other things to do; less than a test may take, so that what stands still is named
  page.setDefaultTimeout(45_000);
  const complaints: string[] = [];
  const address = new URL(`file://${pageFile}`).href;
  page.on('console', (message) => complaints.push(`console: ${message.text()}`));
  page.on('pageerror', (error) => complaints.push(`error: ${error.message}`));
  page.on('request', (request) => {
    const url = request.url();
    // what the page itself made, or holds
    if (url !== address && !/^(?:blob:|data:|about:)/.test(url)) complaints.push(`request: ${url}`);
  });
  // as text: what the tests are compiled with knows nothing of a page
  await page.addInitScript(`{
    globalThis.longTasks = [];
    new PerformanceObserver((list) => longTasks.push(...list.getEntries().map(({ duration }) => duration)))
      .observe({ type: 'longtask', buffered: true });
  }`);
  await page.goto(address);
  return {
    page,
    complaints,
    longTasks: () => page.evaluate<number[]>('longTasks.splice(0)'),
  };
}

/** All that a page keeps, as JSON without the files: an expression to be evaluated in it. */
export const keptText = `new Promise((resolve, reject) => {
  const opening = indexedDB.open('datumline');
  opening.onerror = () => reject(opening.error);
  opening.onsuccess = () => {
    const reading = opening.result.transaction('page').objectStore('page').getAll();
    reading.onerror = () => reject(reading.error);
    reading.onsuccess = () => {
      opening.result.close();
      resolve(JSON.stringify(reading.result) ?? '');
    };
  };
})`;
