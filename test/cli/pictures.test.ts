import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { direct, pointAt, routeBuilder, type TestFile } from 'datumline';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { buildCommand, type Outcome } from '../support/commandLine';

const folder = mkdtempSync(join(tmpdir(), 'datumline pictures '));
let run: (words: readonly string[]) => Promise<Outcome>;

const route = routeBuilder({ name: 'lane' })
  .start([2.1, 61.4])
  .section('old lane', { halfWidth: 5 })
  .lineBy({ azimuth: 90, distance: 300 })
  .build();

function track(right: number): string {
  const points = Array.from({ length: 75 }, (_, i) => {
    const { position, azimuth } = pointAt(route, 4 * i);
    const [lon, lat] = direct(position, azimuth + 90, right).position;
    return `<trkpt lat="${lat}" lon="${lon}"><time>${new Date(Date.UTC(2031, 4, 1, 8) + 1000 * i).toISOString()}</time></trkpt>`;
  });
  return `<gpx><trk><trkseg>${points.join('')}</trkseg></trk></gpx>`;
}

beforeAll(async () => {
  run = await buildCommand(folder);
  const test: TestFile = {
    version: 1,
    route: 'route.json',
    runs: [
      {
        name: 'one',
        date: '2031-05-01 (dry)',
        recordings: [
          { file: 'a.gpx', receiver: 'A' },
          { file: 'b.gpx', receiver: 'B' },
        ],
      },
    ],
    looks: { B: { colour: '#123abc', dash: 'dotted' } },
  };
  writeFileSync(join(folder, 'route.json'), JSON.stringify(route.recipe));
  writeFileSync(join(folder, 'a.gpx'), track(1));
  writeFileSync(join(folder, 'b.gpx'), track(8));
  writeFileSync(join(folder, 'test.json'), JSON.stringify(test));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const pictures = ['distribution', 'place-1', 'plan', 'stretch-1-old-lane', 'stretch-1-old-lane-plan', 'strip'];

test('--pictures svg: each in a file of its own, in the theme, width and looks asked for', async () => {
  const { status, stderr } = await run([
    'assess',
    'test.json',
    '--out',
    'svg',
    '--pictures',
    'svg',
    '--theme',
    'dark',
    '--width',
    '800',
  ]);
  expect(stderr).toBe('');
  expect(status).toBe(0);
  const files = readdirSync(join(folder, 'svg')).filter((name) => name.endsWith('.svg'));
  expect(files.sort()).toEqual(pictures.map((name) => `${name}.svg`).sort());
  for (const file of files) {
    const svg = readFileSync(join(folder, 'svg', file), 'utf8');
    expect(svg).toContain('width="800"');
    expect(svg).toContain('.dl-paper{fill:#13171b}');
    expect(svg).toContain('stroke="#123abc"');
  }
  expect(readFileSync(join(folder, 'svg/report.html'), 'utf8')).toContain('stroke="#123abc"');
});

test('the report tells the date that the test file states, and no other', async () => {
  await run(['assess', 'test.json', '--out', 'dated']);
  await run(['assess', 'route.json', 'a.gpx', 'b.gpx', '--out', 'undated']);
  const [dated, undated] = ['dated', 'undated'].map((name) => readFileSync(join(folder, name, 'report.html'), 'utf8'));
  expect(dated).toContain('Recorded: 2031-05-01 (dry).');
  for (const file of ['report.html', 'assessment.json', 'rows.csv', 'places.geojson']) {
    expect(readFileSync(join(folder, 'undated', file), 'utf8')).not.toMatch(/2031-05|1 May|T08:/);
  }
  expect(undated).not.toContain('Recorded:');
});

test('--pictures png: light and 1600 pixels wide unless stated', async () => {
  const { status, stderr } = await run(['assess', 'route.json', 'a.gpx', 'b.gpx', '--out', 'png', '--pictures', 'png']);
  expect(stderr).toBe('');
  expect(status).toBe(0);
  const files = readdirSync(join(folder, 'png')).filter((name) => name.endsWith('.png'));
  expect(files.sort()).toEqual(pictures.map((name) => `${name}.png`).sort());
  for (const file of files) expect(readFileSync(join(folder, 'png', file)).readUInt32BE(16)).toBe(1600);
});

test('none where none were asked for', async () => {
  await run(['assess', 'test.json', '--out', 'plain']);
  expect(readdirSync(join(folder, 'plain')).filter((name) => /\.(svg|png)$/.test(name))).toEqual([]);
});

test.each([
  [['--pictures', 'jpg'], '--pictures must be svg or png, not "jpg"'],
  [['--pictures', 'svg', '--theme', 'blue'], '--theme must be light or dark, not "blue"'],
  [['--pictures', 'svg', '--width', 'wide'], '--width must be a whole number of 240 to 10000, not "wide"'],
  [['--pictures', 'svg', '--width', '200'], '--width must be a whole number of 240 to 10000, not "200"'],
  [['--theme', 'dark'], '--theme is for pictures: it needs --pictures svg or png'],
  [['--width', '900'], '--width is for pictures: it needs --pictures svg or png'],
])('%j is wrong usage', async (words, message) => {
  const { status, stderr } = await run(['assess', 'test.json', '--out', 'no', ...words]);
  expect(status).toBe(2);
  expect(stderr).toContain(message);
});
