import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Assessment, assess, direct, indexRoute, readGpx, routeBuilder } from 'datumline';
import { errorDistribution, planMap, reportHtml, ribbonMap, stripChart, toCsv, toGeoJson } from 'datumline/report';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { buildCommand, type Outcome } from '../support/commandLine';

// An invented line northwards over open sea, on the zero meridian: what lies east of it mirrors what lies west to the last bit.
const start: [number, number] = [0, 61.4];
const route = routeBuilder({ name: 'pier' })
  .start(start)
  .section('near', { halfWidth: 5 })
  .lineBy({ azimuth: 0, distance: 500 })
  .section('far')
  .lineBy({ azimuth: 0, distance: 500 })
  .build();

const BEGIN = Date.UTC(2033, 6, 14, 5, 43, 21);
const SECRETS = ['unit-4711', 'lamp lane 7', '2033-07', '05:43:', String(BEGIN).slice(0, 6)];

interface Fix {
  readonly seconds: number;
  readonly position: [number, number];
}

/** Metres north of the start and east of the line. */
const at = (seconds: number, north: number, east: number): Fix => {
  const on = direct(start, 0, north).position;
  const [lon, lat] = direct(on, 90, east).position;
  return { seconds, position: [lon, lat] };
};

/** As a receiver writes it, with everything in it that tells whose it is. */
function gpx(fixes: readonly Fix[]): string {
  const points = fixes.map(({ seconds, position: [lon, lat] }) => {
    const time = new Date(BEGIN + 1000 * seconds).toISOString();
    return `<trkpt lat="${lat.toFixed(9)}" lon="${lon.toFixed(9)}"><time>${time}</time><extensions><serial>unit-4711</serial></extensions></trkpt>`;
  });
  return `<gpx creator="unit-4711"><metadata><desc>lamp lane 7</desc></metadata><trk><name>walk</name><desc>lamp lane 7</desc>
<cmt>unit-4711</cmt><src>unit-4711</src><extensions><serial>unit-4711</serial></extensions><trkseg>${points.join('')}</trkseg></trk></gpx>`;
}

/** Walks from a door 597 m off to the start, in the middle 472 m aside and back, and home again. */
function walked(): Fix[] {
  const corners: [north: number, east: number][] = [
    ...([
      [-470, 368],
      [0, 0],
      [480, 1],
      [480, 472],
      [520, 472],
      [520, 2],
      [1000, 1],
    ] satisfies [number, number][]),
    [1300, -500],
  ];
  const fixes: Fix[] = [];
  let seconds = 0;
  for (let k = 1; k < corners.length; k++) {
    const [[n0, e0], [n1, e1]] = [corners[k - 1], corners[k]];
    const steps = Math.round(Math.hypot(n1 - n0, e1 - e0) / 2);
    for (let i = 0; i < steps; i++) {
      fixes.push(at(seconds++, n0 + ((n1 - n0) * i) / steps, e0 + ((e1 - e0) * i) / steps));
    }
  }
  return fixes;
}

/** As walked, but silent between the route and what is away from it, which lies east (1) or west (-1). */
function mirrored(side: 1 | -1): Fix[] {
  const fixes: Fix[] = [];
  const stay = (begin: number, north: number, east: number) => {
    for (let i = 0; i < 240; i++) fixes.push(at(begin + i, north + 20 * Math.sin(i / 30), side * (east + (i % 60))));
  };
  stay(0, -470, 368);
  for (let s = 0; s <= 480; s += 2) fixes.push(at(600 + s / 2, s, 0));
  stay(1200, 500, 472);
  for (let s = 520; s <= 1000; s += 2) fixes.push(at(2000 + s / 2, s, 0));
  stay(3000, 1300, 500);
  return fixes;
}

const index = indexRoute(route);

/** Every position in a document: pairs under `coordinates` and `position`, columns `lon` and `lat`. */
function positionsIn(value: unknown): [number, number][] {
  if (Array.isArray(value)) {
    return value.length >= 2 && value.length <= 3 && value.every((one) => typeof one === 'number')
      ? Math.abs(value[1] - 61.4) < 1 && Math.abs(value[0]) < 1
        ? [[value[0], value[1]]]
        : []
      : value.flatMap(positionsIn);
  }
  if (typeof value !== 'object' || value === null) return [];
  const { lon, lat } = value as { lon?: number[]; lat?: number[] };
  return Array.isArray(lon) && Array.isArray(lat)
    ? lon.map((longitude, i): [number, number] => [longitude, lat[i]])
    : Object.values(value).flatMap(positionsIn);
}

const furthest = (document: unknown) =>
  Math.max(...positionsIn(document).map((position) => index.nearest(position)!.distance));

/** Whatever hashes there are tell two recordings apart. */
const withoutHashes = (text: string) => text.replace(/(?<![.\da-f])[0-9a-f]{16}\b/g, 'HASH');

/** The longitudes of fixes further than 60 m from the route, as any writer would begin them. */
const marks = (fixes: readonly Fix[]) =>
  [
    ...new Set(fixes.filter(({ position }) => index.nearest(position)!.distance > 60).map(({ position }) => position)),
  ].map(([lon]) => lon.toFixed(9).replace('-', '').slice(0, 9));

function expectNothingOf(fixes: readonly Fix[], text: string, about: string): void {
  for (const secret of SECRETS) expect(text.includes(secret), `${about}: ${secret}`).toBe(false);
  expect(marks(fixes).length).toBeGreaterThan(100);
  expect(
    marks(fixes).filter((mark) => text.includes(mark)),
    about,
  ).toEqual([]);
}

describe('what is drawn and written of an assessment', () => {
  const assessed = (fixes: readonly Fix[]) => assess(route, readGpx(gpx(fixes), { name: 'A' }));
  const writers: Record<string, (assessment: Assessment) => string> = {
    assessment: (assessment) => JSON.stringify(assessment),
    toGeoJson: (assessment) => JSON.stringify(toGeoJson(assessment)),
    ...{ reportHtml, toCsv, planMap, ribbonMap, stripChart, errorDistribution },
  };
  const fixes = walked();
  const assessment = assessed(fixes);

  test('the walk is told: where it left the route, how far and how long, and the ways there and home', () => {
    const [{ offRoute, before, after, joined, left, pieces }] = assessment.recordings;
    expect(offRoute).toHaveLength(1);
    expect(offRoute[0].from).toBeCloseTo(480, -1);
    expect(offRoute[0].peak).toBeCloseTo(472, -1);
    expect(offRoute[0].seconds).toBeGreaterThan(400);
    expect(before.length).toBeGreaterThan(500);
    expect(after.length).toBeGreaterThan(500);
    expect([joined, left]).toEqual([0, route.length]);
    // the detour is seen to leave: its first metres are drawn
    expect(pieces).toHaveLength(2);
    expect(furthest(pieces)).toBeGreaterThan(40);
    const told = /off the route (\d+)\sm to \d+\sm, up to ([\d.]+)\sm off, for [^<]+</.exec(reportHtml(assessment));
    expect(told?.slice(1).map((metres) => Math.round(Number(metres) / 10))).toEqual([48, 47]);
  });

  test.each(Object.entries(writers))('%s holds nothing of it', (name, write) => {
    expectNothingOf(fixes, write(assessment), name);
  });

  test('no position lies further than 50 m from the route, nor much before its start or past its end', () => {
    for (const document of [assessment, toGeoJson(assessment)]) {
      expect(positionsIn(document).length).toBeGreaterThan(10);
      expect(furthest(document)).toBeLessThanOrEqual(50.01);
      const lats = positionsIn(document).map(([, lat]) => lat);
      expect(Math.min(...lats)).toBeGreaterThan(at(0, -10, 0).position[1]);
      expect(Math.max(...lats)).toBeLessThan(at(0, 1010, 0).position[1]);
    }
  });

  test.each(Object.entries(writers))('%s is the same whether the doors are on the left or on the right', (_, write) => {
    const [left, right] = ([-1, 1] as const).map((side) => withoutHashes(write(assessed(mirrored(side)))));
    const at = [...left].findIndex((character, i) => character !== right[i]);
    expect(at < 0 ? [] : [left, right].map((text) => text.slice(Math.max(0, at - 80), at + 40))).toEqual([]);
    expect(left.length).toBe(right.length);
  });

  test('a corridor wider than 50 m shows what lies in it', () => {
    const wide = routeBuilder()
      .start(start)
      .section('bay', { halfWidth: 90 })
      .lineBy({ azimuth: 0, distance: 1000 })
      .build();
    const [{ pieces }] = assess(wide, readGpx(gpx(fixes))).recordings;
    expect(furthest(pieces)).toBeGreaterThan(80);
    expect(furthest(pieces)).toBeLessThanOrEqual(90.01);
  });
});

describe('every file the command writes, and all it prints', () => {
  const folder = mkdtempSync(join(tmpdir(), 'datumline homes '));
  let run: (words: readonly string[], input?: string) => Promise<Outcome>;
  const recordings = { walked: walked(), left: mirrored(-1), right: mirrored(1) };

  beforeAll(async () => {
    run = await buildCommand(folder);
    writeFileSync(join(folder, 'route.json'), JSON.stringify(route.recipe));
    for (const [name, fixes] of Object.entries(recordings)) writeFileSync(join(folder, `${name}.gpx`), gpx(fixes));
    const runs = Object.keys(recordings).map((name) => ({
      name,
      recordings: [{ file: `${name}.gpx`, receiver: 'A' }],
    }));
    writeFileSync(join(folder, 'test.json'), JSON.stringify({ version: 1, route: 'route.json', runs }));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  test('assess, of one run and of several', async () => {
    for (const words of [['route.json', 'walked.gpx', 'left.gpx'], ['test.json']]) {
      const out = `out ${words.length}`;
      const { status, stdout, stderr } = await run(['assess', ...words, '--out', out]);
      expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
      const names = readdirSync(join(folder, out));
      expect(names.length).toBeGreaterThan(3);
      for (const fixes of [recordings.walked, recordings.left]) {
        expectNothingOf(fixes, stdout, 'printed');
        for (const name of names) {
          const text = readFileSync(join(folder, out, name), 'utf8');
          expectNothingOf(fixes, text, name);
          if (/json$/.test(name)) expect(furthest(JSON.parse(text)), name).toBeLessThanOrEqual(50.01);
        }
      }
    }
  });

  test('whatever format the recording came in: no absolute time, no serial number, no fix far off', async () => {
    const fixes = recordings.walked;
    const iso = ({ seconds }: Fix) => new Date(BEGIN + 1000 * seconds).toISOString();
    const inputs: Record<string, string> = {
      'w.csv': `time,lon,lat,serial unit-4711\n${fixes.map((fix) => `${iso(fix)},${fix.position[0]},${fix.position[1]},unit-4711\n`).join('')}`,
      'w.geojson': JSON.stringify({
        type: 'Feature',
        id: 'unit-4711',
        properties: { name: 'walk', serial: 'unit-4711', note: 'lamp lane 7', coordTimes: fixes.map(iso) },
        geometry: { type: 'LineString', coordinates: fixes.map(({ position }) => position) },
      }),
      'w.kml': `<kml><Document><name>lamp lane 7</name><Placemark id="unit-4711"><name>walk</name><description>lamp lane 7</description><ExtendedData><Data name="serial"><value>unit-4711</value></Data></ExtendedData><Track>${fixes
        .map((fix) => `<when>${iso(fix)}</when><coord>${fix.position[0]} ${fix.position[1]} 3</coord>`)
        .join('')}</Track></Placemark></Document></kml>`,
      'w.tcx': `<TrainingCenterDatabase><Activities><Activity Sport="unit-4711"><Id>${iso(fixes[0])}</Id><Notes>lamp lane 7</Notes><Lap StartTime="${iso(fixes[0])}"><Track>${fixes
        .map(
          (fix) =>
            `<Trackpoint><Time>${iso(fix)}</Time><Position><LatitudeDegrees>${fix.position[1]}</LatitudeDegrees><LongitudeDegrees>${fix.position[0]}</LongitudeDegrees></Position></Trackpoint>`,
        )
        .join(
          '',
        )}</Track></Lap><Creator><Name>unit-4711</Name><UnitId>unit-4711</UnitId></Creator></Activity></Activities></TrainingCenterDatabase>`,
    };
    for (const [name, text] of Object.entries(inputs)) writeFileSync(join(folder, name), text);
    const { status, stdout, stderr } = await run(['assess', 'route.json', ...Object.keys(inputs), '--out', 'formats']);
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    const written = readdirSync(join(folder, 'formats')).map((name) => [
      name,
      readFileSync(join(folder, 'formats', name), 'utf8'),
    ]);
    expect(written.length).toBeGreaterThan(3);
    for (const [name, text] of [['printed', stdout], ...written]) {
      expectNothingOf(fixes, text, name);
      // any instant at all, not only this one's
      expect(text.match(/\b(?:19|20)\d\d-\d\d-\d\dT\d\d:\d\d/g), name).toBeNull();
      if (/json$/.test(name)) expect(furthest(JSON.parse(text)), name).toBeLessThanOrEqual(50.01);
    }
    for (const name of Object.keys(inputs)) {
      const { status: placed, stdout: table } = await run(['snap', 'route.json', name]);
      expect(placed).toBe(0);
      expectNothingOf(fixes, table, `snap ${name}`);
    }
  });

  test('snap, as a table, as a map and line by line; assess line by line', async () => {
    const line = JSON.stringify({ route: 'route.json', recording: 'walked.gpx' });
    const printed = await Promise.all([
      run(['snap', 'route.json', 'walked.gpx']),
      run(['snap', 'route.json', 'walked.gpx', '--out', 'walked.geojson']),
      run(['snap', '--ndjson'], line),
      run(['assess', '--ndjson'], line),
    ]);
    for (const { status, stdout } of printed) {
      expect(status).toBe(0);
      expectNothingOf(recordings.walked, stdout, 'printed');
    }
    const map = readFileSync(join(folder, 'walked.geojson'), 'utf8');
    expectNothingOf(recordings.walked, map, 'walked.geojson');
    expect(furthest(JSON.parse(map))).toBeLessThanOrEqual(50.01);
  });
});
