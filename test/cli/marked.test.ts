import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { direct, routeBuilder } from 'datumline';
import { JSDOM } from 'jsdom';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { buildCommand, type Outcome } from '../support/commandLine';
import { FitFile, recordFields } from '../support/FitFile';
import { sentence } from '../support/sampleFiles';

const folder = mkdtempSync(join(tmpdir(), 'datumline marked '));
const start: [number, number] = [2.1, 61.4];
let run: (words: readonly string[], input?: string) => Promise<Outcome>;

/** Wipes a terminal, turns the direction, closes what is open, begins a script, a formula, a comment. */
const MARK = '\u001b[2J\u009b1m\u202Egnorw\u2066"\'><script>alert(1)</script><!--]]>=1+1';
const xml = (text: string) =>
  text.replaceAll('\u001b', '').replace(/[&<>"']/g, (character) => `&#${character.charCodeAt(0)};`);
const controls = /(?![\t\n])[\p{Cc}\u202A-\u202E\u2066-\u2069]/u;

const fixes = Array.from({ length: 40 }, (_, i) => {
  const [lon, lat] = direct(start, 91, 5 * i).position;
  return { lon, lat, time: new Date(Date.UTC(2031, 4, 1, 8, 0, i)).toISOString() };
});
const marked = xml(MARK);
const files: Record<string, string | Uint8Array> = {
  'm.gpx': `<gpx creator="${marked}"><metadata><name>${marked}</name><desc>${marked}</desc></metadata><trk><name>${marked}</name><cmt>${marked}</cmt><desc>${marked}</desc><src>${marked}</src><type>${marked}</type><extensions><x>${marked}</x></extensions><trkseg>${fixes
    .map(({ lon, lat, time }) => `<trkpt lat="${lat}" lon="${lon}"><time>${time}</time><name>${marked}</name></trkpt>`)
    .join('')}</trkseg></trk></gpx>`,
  'm.tcx': `<TrainingCenterDatabase><Activities><Activity Sport="${marked}"><Id>${marked}</Id><Name>${marked}</Name><Notes>${marked}</Notes><Lap><Track>${fixes
    .map(
      ({ lon, lat, time }) =>
        `<Trackpoint><Time>${time}</Time><Position><LatitudeDegrees>${lat}</LatitudeDegrees><LongitudeDegrees>${lon}</LongitudeDegrees></Position></Trackpoint>`,
    )
    .join('')}</Track></Lap><Creator><Name>${marked}</Name></Creator></Activity></Activities></TrainingCenterDatabase>`,
  'm.kml': `<kml><Document><name>${marked}</name><Placemark id="${marked}"><name>${marked}</name><description>${marked}</description><ExtendedData><Data name="${marked}"><value>${marked}</value></Data></ExtendedData><LineString><coordinates>${fixes
    .map(({ lon, lat }) => `${lon},${lat}`)
    .join(' ')}</coordinates></LineString></Placemark></Document></kml>`,
  'm.geojson': JSON.stringify({
    type: 'Feature',
    id: MARK,
    properties: { name: MARK, [MARK]: MARK, coordTimes: fixes.map(({ time }) => time) },
    geometry: { type: 'LineString', coordinates: fixes.map(({ lon, lat }) => [lon, lat]) },
  }),
  'm.csv': `recording,segment,time,longitude,latitude,${MARK.replaceAll('"', '')}\n${fixes
    .map(
      ({ lon, lat, time }) =>
        `"${MARK.replaceAll('"', '""')}","${MARK.replaceAll('"', '""')}",${time},${lon},${lat},x\n`,
    )
    .join('')}`,
};

/** A log whose own sentences, between those of the fixes, carry the mark; what is no sentence may hold anything. */
const nmea = fixes
  .map(({ lon, lat, time }) => {
    const angle = (degrees: number, digits: number) =>
      `${String(Math.floor(degrees)).padStart(digits, '0')}${((degrees % 1) * 60).toFixed(6).padStart(9, '0')}`;
    const clock = time.slice(11, 19).replaceAll(':', '');
    const fix = sentence(`GNRMC,${clock},A,${angle(lat, 2)},N,${angle(lon, 3)},E,,,010531,,,A`);
    return `${MARK.replaceAll('\n', '')}\r\n$GPTXT,01,01,02,${MARK}\r\n${MARK}${fix}`;
  })
  .join('\r\n');

/** Marks of at most 7 bytes, the strings of the writer of test files, in the messages that carry words. */
const fit = new FitFile();
for (const message of [0, 18, 21, 23, 34]) {
  for (let at = 0; at < MARK.length; at += 7) {
    const word = MARK.slice(at, at + 7).replace(/[^ -~]/g, '<');
    fit.message(message, [
      { number: 8, type: 'string', value: word },
      { number: 27, type: 'string', value: '<b>=1+1' },
    ]);
  }
}
for (const { lon, lat, time } of fixes) fit.message(20, recordFields(Date.parse(time) / 1000, lat, lon));

files['m.nmea'] = nmea;
files['m.fit'] = fit.bytes();

beforeAll(async () => {
  run = await buildCommand(folder);
  const { recipe } = routeBuilder({ name: MARK })
    .start(start)
    .section(MARK, { halfWidth: 1, environment: MARK })
    .lineTo(direct(start, 90, 120).position)
    .mark(MARK)
    .provenance({ source: MARK, licence: MARK })
    .lineTo(direct(start, 90, 200).position)
    .build();
  writeFileSync(join(folder, 'route.json'), JSON.stringify(recipe));
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  const recordings = Object.keys(files).map((file, i) => ({ file, receiver: `${i}${MARK}`, placement: MARK }));
  const exclusions = [{ from: 10, to: 20, reason: MARK }];
  const runs = [1, 2].map((k) => ({ name: `${k}${MARK}`, recordings, exclusions }));
  writeFileSync(join(folder, 'test.json'), JSON.stringify({ version: 1, name: MARK, route: 'route.json', runs }));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** In the page marks are words only: no element, attribute or script came of them. */
function expectOnlyWords(html: string): void {
  expect(controls.test(html.replaceAll('\r\n', '\n'))).toBe(false);
  const { document } = new JSDOM(html).window;
  expect(document.querySelectorAll('script')).toHaveLength(2);
  for (const script of document.querySelectorAll('script:not([type])'))
    expect(script.textContent).not.toContain('gnorw');
  const data = document.getElementById('walk-data')!.textContent!;
  expect(controls.test(JSON.stringify(JSON.parse(data)).replace(/\\u[\da-f]{4}/g, (c) => JSON.parse(`"${c}"`)))).toBe(
    false,
  );
  for (const element of document.querySelectorAll('*')) {
    for (const { name } of element.attributes) expect(name).toMatch(/^[a-zA-Z][\w:.-]*$/);
    expect(element.localName).toMatch(/^[a-zA-Z][\w]*$/);
  }
  // 128 shows comments
  expect(document.createNodeIterator(document, 128).nextNode()).toBeNull();
  expect(document.body.textContent).toContain('<script>alert(1)</script>');
}

test.each([
  ['one run', ['route.json', ...Object.keys(files)]],
  ['a test of two', ['test.json']],
])('%s: marked strings in every field come out as text only', async (about, words) => {
  const out = about.replaceAll(' ', '-');
  const { status, stdout, stderr } = await run(['assess', ...words, '--out', out]);
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  expect(controls.test(stdout)).toBe(false);
  for (const name of readdirSync(join(folder, out))) {
    const text = readFileSync(join(folder, out, name), 'utf8');
    if (name === 'report.html') expectOnlyWords(text);
    else if (name === 'rows.csv') expect(text).not.toMatch(/(?:^|[,\n]"?)[=+@]/m);
    else if (name === '.datumline-files') expect(text).toMatch(/^(?:[\da-f]{64} {2}[\w.-]+\n)+$/);
    // JSON holds strings as they are, escaped as JSON escapes them
    else expect(() => JSON.parse(text), name).not.toThrow();
  }
});

test('what is printed of files and of their names moves no cursor', async () => {
  const odd = '\u001b[2Jodd\u202E\n<script>.gpx';
  writeFileSync(join(folder, odd), String(files['m.gpx']).slice(0, 900));
  const printed = [
    await run(['route', 'route.json']),
    await run(['assess', 'route.json', odd, 'm.gpx', '--out', 'odd']),
    await run(['assess', 'route.json', `missing${odd}`, '--out', 'odd']),
    await run(['snap', 'route.json', odd]),
    await run(['assess', 'route.json', 'm.gpx', '--baseline', odd, '--out', 'odd']),
    await run(['assess', 'route.json', 'm.gpx', '--out', `odd folder ${odd}`]),
  ];
  expect(printed.map(({ status }) => status)).toEqual([0, 3, 1, 1, 2, 0]);
  for (const { stdout, stderr } of printed) expect(controls.test(stdout + stderr)).toBe(false);
  expect(readdirSync(join(folder, `odd folder ${odd}`))).toContain('report.html');
});

test('a line nested too deep costs one line; a shallower one comes back as it was', async () => {
  const nested = (depth: number) => `${'{"a":['.repeat(depth / 2)}${']}'.repeat(depth / 2)}`;
  const asked = '"route":"route.json","recording":"m.gpx"';
  const lines = [98, 100_000, 4_000, 0].map((depth) => `{${asked},"own":${depth === 0 ? '1' : nested(depth)}}`);
  for (const command of ['snap', 'assess']) {
    const { status, stdout, stderr } = await run([command, '--ndjson'], `${lines.join('\n')}\n`);
    expect({ status, stderr }).toEqual({ status: 3, stderr: '' });
    const answers = stdout
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(answers).toHaveLength(4);
    expect(answers[0].error).toBeUndefined();
    expect(JSON.stringify(answers[0].own)).toBe(nested(98));
    for (const k of [1, 2]) {
      expect(answers[k]).toEqual({
        line: k + 1,
        error: { reason: 'unreadable', message: `line ${k + 1}: nested more than 100 deep` },
      });
    }
    expect(answers[3].own).toBe(1);
  }
});
