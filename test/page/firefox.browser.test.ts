import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { direct } from 'datumline';
import puppeteer, { type Browser, type Page } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { commandAgain, expectSame } from './commandAgain';
import { keptText, pageFile } from './openPage';

/** The other engine: a Firefox as it is installed, driven by WebDriver BiDi. */
const executablePath = ['/usr/bin/firefox-esr', '/usr/bin/firefox'].find(existsSync);
if (!executablePath) console.log('No Firefox here: the test of the page in it is skipped.');

const demo = fileURLToPath(new URL('../../examples/demo/', import.meta.url));
const names = [1, 2, 3].flatMap((run) => ['a', 'b', 'c'].map((receiver) => `run-${run}-receiver-${receiver}.gpx`));
/** A machine may have other things to do. */
const timeout = 60_000;

describe.skipIf(!executablePath)('the page in Firefox', () => {
  const folder = mkdtempSync(join(tmpdir(), 'datumline-firefox-'));
  const downloads = join(folder, 'downloads');
  let browser: Browser;
  let page: Page;
  const complaints: string[] = [];

  beforeAll(async () => {
    mkdirSync(downloads);
    browser = await puppeteer.launch({
      browser: 'firefox',
      executablePath,
      timeout,
      protocolTimeout: timeout,
      extraPrefsFirefox: { 'browser.download.folderList': 2, 'browser.download.dir': downloads },
    });
    page = await browser.newPage();
    page.setDefaultTimeout(timeout);
    await page.setViewport({ width: 1600, height: 1300 });
    const address = new URL(`file://${pageFile}`).href;
    page.on('console', (message) => complaints.push(`console: ${message.text()}`));
    page.on('pageerror', (error) => complaints.push(`error: ${(error as Error).message}`));
    page.on('request', (request) => {
      const url = request.url();
      // what the page itself made, or holds
      if (url !== address && !/^(?:blob:|data:|about:)/.test(url)) complaints.push(`request: ${url}`);
    });
    await page.goto(address);
  }, 2 * timeout);
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  const text = (selector: string) => page.$eval(selector, (element) => element.textContent);
  const pressed = async (words: string) => (await page.waitForSelector(`::-p-xpath(//button[.="${words}"])`))!.click();
  const count = (selector: string) => page.$$eval(selector, (all) => all.length);
  const rows = '.who tbody tr:not(.remarks)';

  /** What is in the folder of downloads once it is whole. */
  async function downloaded(name: string): Promise<string> {
    const file = join(downloads, name);
    await expect
      .poll(() => existsSync(file) && !readdirSync(downloads).some((one) => one.endsWith('.part')), { timeout })
      .toBe(true);
    return file;
  }

  test('a line drawn by mouse and saved', async () => {
    const middle = [5.2, 60.1];
    for (const [i, name] of ['lon', 'lat'].entries()) await page.type(`.go-to input[name=${name}]`, String(middle[i]));
    await pressed('Show this place');
    await page.waitForSelector('.line-map-frame canvas');
    const frame = (await page.$('.line-map-frame'))!;
    const clicks = [
      [80, 60],
      [300, 90],
      [380, 160],
      [220, 200],
    ];
    for (const [i, [right, down]] of clicks.entries()) {
      await frame.scrollIntoView();
      // where it is now: what is told above it changes
      const { x, y } = (await frame.boundingBox())!;
      await page.mouse.click(x + right, y + down);
      await expect.poll(() => count('.legs > ol > li')).toBe(i + 1);
    }
    await pressed('Save the line');
    const { steps } = JSON.parse(readFileSync(await downloaded('route.json'), 'utf8'));
    expect(steps).toHaveLength(clicks.length);
    const { width, height } = (await frame.boundingBox())!;
    // about the middle of the map, 2 km across it, north up
    for (const [i, [right, down]] of clicks.entries()) {
      const [east, north] = [right - width / 2, height / 2 - down].map((length) => (length * 2000) / width);
      const { position } = direct(middle, (Math.atan2(east, north) * 180) / Math.PI, Math.hypot(east, north));
      expect(steps[i].position[0]).toBeCloseTo(position[0], 4);
      expect(steps[i].position[1]).toBeCloseTo(position[1], 4);
    }
    expect(complaints).toEqual([]);
  }, 60_000);

  test('the demo dropped, judged, saved, and judged by the command to the same figures; there again the next time', async () => {
    const dropped = ['route.json', ...names.map((name) => `recordings/${name}`)].map((name) => ({
      name: name.replace(/^.*\//, ''),
      content: readFileSync(join(demo, name), 'utf8'),
    }));
    await page.evaluate((files) => {
      const dataTransfer = new DataTransfer();
      for (const { name, content } of files) dataTransfer.items.add(new File([content], name));
      document.body.dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true }));
    }, dropped);
    await expect.poll(() => count(rows), { timeout }).toBe(9);
    await page.waitForSelector('.what button.main:enabled');
    await (await page.$('.what button.main'))!.click();
    const frame = await (await page.waitForSelector('.what iframe'))!.contentFrame();
    await frame!.waitForSelector('h1');
    await expect.poll(() => frame!.$eval('html', (root) => root.getAttribute('data-linked'))).toBe('yes');

    await (await page.$('.saving label:nth-of-type(2) input'))!.click();
    await (await page.$('.saving button'))!.click();
    expectSame(commandAgain(await downloaded('test.zip'), mkdtempSync(join(folder, 'whole'))));
    await expect.poll(() => text('.said')).toContain('Saved, recordings whole.');

    const before = await text('.told strong');
    await expect.poll(() => page.evaluate(keptText), { timeout }).toContain('receiver-c');
    await page.reload();
    await expect.poll(() => count(rows), { timeout }).toBe(9);
    await expect.poll(() => count('.who td[data-label="Fixes"]'), { timeout }).toBe(9);
    await page.waitForSelector('.what button.main:enabled');
    expect(await text('.told strong')).toBe(before);
    expect(complaints).toEqual([]);
  }, 120_000);
});
