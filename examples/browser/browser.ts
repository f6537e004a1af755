import assert from 'node:assert/strict';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { demoRoute } from '../demo/demoRoute';
import { recordingFile } from '../demo/demoRuns';
import { serve } from './serve';

/**
 * A page that loads the built package and places a dropped file, served on this machine and driven in a real browser.
 * `npx tsx examples/browser/browser.ts --serve` leaves it running to look at.
 */
const out = fileURLToPath(new URL('../out/browser/', import.meta.url));
mkdirSync(out, { recursive: true });
writeFileSync(join(out, 'route.json'), JSON.stringify(demoRoute().recipe));
const library = fileURLToPath(new URL('../../dist/datumline.min.js', import.meta.url));
if (!existsSync(library)) throw new Error('the package is not built: npm run build');
console.log(`the library, one file: ${(statSync(library).size / 1024).toFixed(0)} KiB`);

const here = (name: string) => fileURLToPath(new URL(name, import.meta.url));
const looking = process.argv.includes('--serve');
const { server, address } = await serve(
  {
    '/index.html': here('index.html'),
    '/page.js': here('page.js'),
    '/datumline.min.js': library,
    '/route.json': join(out, 'route.json'),
  },
  looking ? 8080 : 0,
);

const executablePath = '/usr/bin/chromium';
if (looking) console.log(`look at ${address}; stop with Ctrl-C`);
else if (!existsSync(executablePath)) {
  console.log(`skipped: no browser at ${executablePath}`);
  server.close();
} else {
  try {
    await drive();
  } finally {
    server.close();
  }
}

async function drive(): Promise<void> {
  const profile = mkdtempSync(join(tmpdir(), 'datumline-browser-'));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath,
    headless: true,
    args: [
      ...['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking'],
      ...['--disable-component-update', '--disable-sync'],
    ],
  });
  try {
    const page = await context.newPage();
    const faults: string[] = [];
    page.on('pageerror', (error) => faults.push(error.message));
    page.on('console', (message) => message.type() === 'error' && faults.push(message.text()));
    page.on(
      'request',
      (request) => request.url().startsWith(address) || request.url().startsWith('data:') || faults.push(request.url()),
    );
    await page.goto(address);
    await page.getByText('Ready: ').waitFor();

    const drop = (text: string, name: string) =>
      page.evaluate(
        ([text, name]) => {
          const transfer = new DataTransfer();
          transfer.items.add(new File([text], name));
          const dropped = new DragEvent('drop', { dataTransfer: transfer, bubbles: true });
          document.getElementById('drop')!.dispatchEvent(dropped);
        },
        [text, name],
      );
    const gpx = readFileSync(recordingFile('run 1', 'A'), 'utf8');
    await drop(gpx, 'my ride.gpx');
    await page.getByText('fixes on the line').waitFor();
    assert.equal(await page.locator('tr').count(), demoRoute().sections.length + 1);
    await page.screenshot({ path: join(out, 'page.png'), fullPage: true });
    console.log(await page.locator('#said').textContent());

    // a line of one's own, then the same ride on it, and what the library makes of both
    const { lon, lat } = demoRoute();
    const drawn = Array.from(lon.slice(0, 60), (longitude, i) => [longitude, lat[i]]);
    const feature = { type: 'Feature', properties: {}, geometry: { type: 'LineString', coordinates: drawn } };
    await drop(JSON.stringify({ type: 'FeatureCollection', features: [feature] }), 'my line.geojson');
    await page.getByText('The line is now my line.geojson').waitFor();
    await drop(gpx, 'my ride.gpx');
    await page.getByText('fixes on the line').waitFor();
    const [report] = await Promise.all([page.waitForEvent('download'), page.getByText('Save the report').click()]);
    await report.saveAs(join(out, 'report.html'));
    assert.match(readFileSync(join(out, 'report.html'), 'utf8'), /^<!doctype html>/i);

    // chosen, and broken: said in words
    const buffer = Buffer.from('<gpx><trk><trkseg><trkpt lat="95"');
    await page.setInputFiles('#file', { name: 'broken.gpx', mimeType: 'application/gpx+xml', buffer });
    await page.getByText('broken.gpx cannot be read').waitFor();
    console.log(await page.locator('#said').textContent());
    assert.deepEqual(faults, []);
  } finally {
    await context.close();
    rmSync(profile, { recursive: true, force: true });
  }
}
