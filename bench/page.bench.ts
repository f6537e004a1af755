import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { assess, writeGpx } from 'datumline';
import { reportHtml } from 'datumline/report';
import { executablePath, launchBrowser, openPage } from '../test/page/openPage';
import type { Bench } from './support/Bench';
import { showTime } from './support/showTime';
import { windingRide } from './support/windingRide';

/** Milliseconds that somebody looks through the table before asking for the report. */
const LOOKED_AT = 10_000;

/** Twelve recordings on the built page, in a browser: from the files to the report, and how long the page stands still meanwhile. */
export const run: Bench = async ({ smoke }) => {
  if (!executablePath) return [];
  const length = smoke ? 500 : 10_000;
  const { route, recordings } = windingRide(length);
  // six more receivers, carried two metres further north
  const beside = recordings.map((one) => ({
    ...one,
    name: `${one.name}, north`,
    lat: one.lat.map((lat) => lat + 2e-5),
  }));
  const folder = mkdtempSync(join(tmpdir(), 'datumline-page-'));
  const browser = await launchBrowser();
  try {
    const files = [...recordings, ...beside].map((recording) => {
      const file = join(folder, `${recording.name}.gpx`);
      writeFileSync(file, writeGpx(recording, { times: 'absolute' }));
      return file;
    });
    const line = join(folder, 'route.json');
    writeFileSync(line, JSON.stringify(route.recipe));
    const { page, longTasks } = await openPage(browser);
    await page.locator('.who .empty').waitFor();
    await page.waitForTimeout(500);
    const opening = await longTasks();
    const rows = page.locator('.who tbody tr:not(.remarks)');
    const read = await timed(async () => {
      await page.setInputFiles('.who input[type=file]', files);
      await rows.nth(files.length - 1).waitFor();
    });
    const reading = await longTasks();
    await page.setInputFiles('.who input[type=file]', [line]);
    await page.locator('.what button.main:enabled').waitFor();
    // coverage of the line, found by the other worker, is not to compete with the report
    await page
      .locator('.who td[data-label="Covered"]:has-text("%")')
      .nth(files.length - 1)
      .waitFor();
    const lining = await longTasks();
    const report = async () => {
      await page.click('.what button.main');
      await page.locator('.what progress').waitFor({ state: 'detached' });
      await page.frameLocator('.what iframe').locator('h1').waitFor();
    };
    const made = await timed(report);
    // another test by its name; judged ahead while its table is looked at
    await page.fill('.name input', 'The same again');
    await page.keyboard.press('Tab');
    await page.waitForTimeout(smoke ? 1500 : LOOKED_AT);
    const again = await timed(report);
    await page.waitForTimeout(200);
    const reporting = await longTasks();
    const entries = [...recordings, ...beside];
    const here = await timed(async () => {
      reportHtml(assess(route, entries));
    });
    const size = `12 recordings × ${length / 1000} km at 1 Hz`;
    const others = { peers: [{ name: 'assess and reportHtml, Node', time: showTime(here) }] };
    const longest = (tasks: readonly number[]) => Math.max(0, ...tasks);
    const still = longest([...reading, ...lining, ...reporting]);
    return [
      { what: `page, opened: longest task of the main thread`, ours: showTime(longest(opening)) },
      { what: `page, ${size} read`, ours: showTime(read) },
      {
        ...{ what: `page, report of ${size}, asked for at once`, ours: showTime(made) },
        ...{ promise: '≤ 2 s', held: made <= 2000, ...others },
      },
      {
        what: `page, report of ${size}, asked for after ${LOOKED_AT / 1000} s at the table`,
        ...{ ours: showTime(again), promise: '≤ 2 s', held: again <= 2000 },
      },
      {
        ...{
          what: `page, ${size} read, their line opened, and judged: longest task of the main thread`,
          ours: showTime(still),
        },
        ...{ promise: '≤ 200 ms', held: still <= 200 },
      },
    ];
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  }
};

/** Milliseconds. */
async function timed(work: () => Promise<void>): Promise<number> {
  const begin = performance.now();
  await work();
  return performance.now() - begin;
}
