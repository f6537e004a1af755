import {
  inverse,
  readGpx,
  readLines,
  readRecordings,
  routeBuilder,
  routeFromLine,
  snap,
  writeCsv,
  writeGeoJson,
  writeGpx,
  writeKml,
} from 'datumline';
import fc from 'fast-check';
import type { FeatureCollection, LineString, Point } from 'geojson';
import { JSDOM } from 'jsdom';
import { expect, test } from 'vitest';
import { gpx11Schema } from '../published/gpx11Schema';
import { kml22Schema } from '../published/kml22Schema';
import { type ContentModel, checkContent } from '../support/checkContent';
import { recordings } from '../support/recordings';

const { DOMParser } = new JSDOM('').window;
const root = (text: string) => new DOMParser().parseFromString(text, 'application/xml').documentElement;

const quay = routeBuilder({ name: 'loop & back' })
  .start([5, 60])
  .section('quay', { halfWidth: 5 })
  .lineTo([5.004, 60])
  .section('lanes', { halfWidth: 3 })
  .lineTo([5.004, 60.002])
  .section('steps')
  .lineTo([5.006, 60.002])
  .build();

test.each<[string, typeof writeGpx | typeof writeKml, ContentModel]>([
  ['GPX 1.1', writeGpx, gpx11Schema],
  ['KML 2.2', writeKml, kml22Schema],
])('%s: what is written follows the schema', (_, write, schema) => {
  expect(checkContent(root(write(quay)), schema)).toEqual([]);
  expect(checkContent(root(write(marked, { times: 'absolute' })), schema)).toEqual([]);
  expect(
    checkContent(
      root(
        write([
          [5, 60, 3],
          [6, 60],
        ]),
      ),
      schema,
    ),
  ).toEqual([]);
  fc.assert(
    fc.property(
      fc.array(recordings, { minLength: 1, maxLength: 3 }),
      fc.constantFrom('keep', 'strip'),
      (list, identity) => {
        expect(checkContent(root(write(list, { identity, times: 'absolute' })), schema)).toEqual([]);
      },
    ),
    { seed: 31, numRuns: 100 },
  );
});

test('the check of the schema finds what is wrong', () => {
  const gpx = (inner: string) => root(`<gpx xmlns="${gpx11Schema.namespace}" version="1.1" creator="x">${inner}</gpx>`);
  const wrong = (inner: string) => checkContent(gpx(inner), gpx11Schema);
  expect(wrong('<trk><trkseg/><name>a</name></trk>')).toEqual(['name out of place in trk']);
  expect(wrong('<trk><name/><name/></trk>')).toEqual(['name twice in trk']);
  expect(wrong('<trk><trkseg><trkpt lat="1"/></trkseg></trk>')).toEqual(['trkpt has attributes lat']);
  expect(wrong('<trk><trkseg><trkpt lat="1e-7" lon="5"/></trkseg></trk>')).toEqual(['trkpt lat: 1e-7']);
  expect(wrong('<trk><number>1e3</number></trk>')).toEqual(['number: 1e3']);
  expect(wrong('<trk/><wpt lat="1" lon="2"/>')).toEqual(['wpt out of place in gpx']);
  expect(wrong('<wpt lat="1" lon="2"><name/><time/></wpt>')).toContain('time out of place in wpt');
  expect(wrong('<trk xmlns="u"/>')).toEqual(['trk is of u']);
});

test('a route is written with the edges of its corridor, each as far away as the section is wide', () => {
  const [line, ...edges] = readGpx(writeGpx(quay));
  expect(line.name).toBe('loop & back');
  expect(edges.map(({ name }) => name)).toEqual([
    'quay, left edge',
    'quay, right edge',
    'lanes, left edge',
    'lanes, right edge',
  ]);
  const first = (i: number) => [edges[i].lon[0], edges[i].lat[0]];
  for (const [i, width, azimuth] of [
    [0, 5, 0],
    [1, 5, 180],
    [2, 3, 270],
    [3, 3, 90],
  ]) {
    const { distance, initialAzimuth } = inverse(i < 2 ? [5, 60] : [5.004, 60], first(i));
    expect(distance).toBeCloseTo(width, 3);
    expect(Math.abs(((initialAzimuth - azimuth + 540) % 360) - 180)).toBeLessThan(0.1);
  }
  expect(readGpx(writeGpx(quay, { corridor: 'none' })).length).toBe(1);
});

const passed = Date.UTC(2031, 4, 1, 8);
const marked = routeBuilder({ name: 'two rounds' })
  .start([5, 60])
  .mark('gate & "post"', { near: [5, 60], time: passed })
  .laps(2, (lap) =>
    lap
      .section('out', { halfWidth: 4, environment: 'open sky' })
      .lineTo([5.002, 60])
      .mark('bench')
      .section('back')
      .lineTo([5, 60]),
  )
  .build();

test('marks are waypoints in GPX and placemarks with a point in KML, where they lie on the line', () => {
  const near = ([lon, lat]: number[], place: number[]) =>
    expect(inverse([lon, lat], place).distance).toBeLessThan(1e-3);
  const names = ['gate & "post"', 'bench, lap 1', 'bench, lap 2'];
  const places = [
    [5, 60],
    [5.002, 60],
    [5.002, 60],
  ];
  const gpx = [...root(writeGpx(marked)).querySelectorAll('wpt')];
  expect(gpx.map((one) => one.querySelector('name')?.textContent)).toEqual(names);
  gpx.forEach((one, i) => {
    near([Number(one.getAttribute('lon')), Number(one.getAttribute('lat'))], places[i]);
  });
  const kml = [...root(writeKml(marked)).querySelectorAll('Placemark')].filter((one) => one.querySelector('Point'));
  expect(kml.map((one) => one.querySelector('name')?.textContent)).toEqual(names);
  kml.forEach((one, i) => {
    near(one.querySelector('coordinates')!.textContent!.split(',').map(Number), places[i]);
  });
});

test('when a mark was passed is written where times are absolute, and never in KML, where a point with a time is a fix', () => {
  const times = (text: string) => [...root(text).querySelectorAll('wpt > time, when')].map((one) => one.textContent);
  expect(times(writeGpx(marked))).toEqual([]);
  expect(times(writeGpx(marked, { times: 'none' }))).toEqual([]);
  expect(times(writeGpx(marked, { times: 'absolute' })).map((text) => Date.parse(text!))).toEqual([passed]);
  expect(times(writeKml(marked, { times: 'absolute' }))).toEqual([]);
});

test('sections stand in words beside the line, and only there', () => {
  // 0.002° of longitude at 60° N: 111.6 m, N cos φ Δλ with N from NGA.STND.0036's axes
  const words =
    'out, lap 1: 0.0–111.6 m, half width 4 m, open sky\nback, lap 1: 111.6–223.2 m\n' +
    'out, lap 2: 223.2–334.8 m, half width 4 m, open sky\nback, lap 2: 334.8–446.4 m';
  const said = (text: string, tag: string) => [...root(text).querySelectorAll(tag)].map((one) => one.textContent);
  expect(said(writeGpx(marked), 'desc')).toEqual([words]);
  expect(said(writeKml(marked), 'description')).toEqual([words]);
});

test.each([
  ['GPX', writeGpx, 'not-a-line', 'not-recorded'],
  ['KML', writeKml, 'not-a-line', 'not-a-line'],
] as const)('%s: marks change no line read back, and are told as left out', async (_, write, ofLines, ofRecordings) => {
  const text = write(marked, { corridor: 'none', times: 'absolute' });
  const lines = readLines(text);
  expect(lines.map(({ name }) => name)).toEqual(['two rounds']);
  expect(lines[0].positions).toEqual(Array.from(marked.lon, (lon, i) => [lon, marked.lat[i]]));
  expect(lines[0].issues).toMatchObject([{ reason: ofLines, count: 3 }]);
  const [recording, ...others] = await readRecordings(new TextEncoder().encode(text));
  expect(others).toEqual([]);
  expect(recording.issues.find(({ reason }) => reason === ofRecordings)?.count).toBe(3);
});

/** A walk along the quay and the lanes, 1 m right of it, 20 m right in the middle of the lanes. */
const walk = readGpx(
  `<gpx><trk><name>chest</name><trkseg>${Array.from({ length: 60 }, (_, i) => {
    const onQuay = i < 30;
    const off = i >= 40 && i < 45 ? 20 : 1;
    const [lon, lat] = onQuay ? [5 + i * 1.3e-4, 60 - 1 / 111_412] : [5.004 + off / 55_800, 60 + (i - 30) * 6e-5];
    return `<trkpt lat="${lat}" lon="${lon}"><time>${new Date(1e12 + i * 4000).toISOString()}</time></trkpt>`;
  }).join('')}</trkseg></trk></gpx>`,
)[0];
const matched = { route: quay, snapped: snap(quay, walk) };

test('matched fixes are points with their place on the route, excursions are lines', () => {
  const { features } = JSON.parse(writeGeoJson(walk, { matched })) as FeatureCollection;
  const fixes = features.filter(({ properties }) => properties?.kind === 'fix');
  expect(fixes.length).toBe(60);
  fixes.forEach(({ geometry, properties }, i) => {
    expect((geometry as Point).coordinates).toEqual([walk.lon[i], walk.lat[i]]);
    const { alongTrack, crossTrack, distance, state } = matched.snapped;
    expect(properties).toMatchObject({ fix: i, state: state[i] });
    for (const [key, column] of Object.entries({ alongTrack, crossTrack, distance })) {
      expect(properties![key]).toBe(Number.isNaN(column[i]) ? null : column[i]);
    }
  });
  expect(fixes[5].properties!.section).toBe('quay');
  expect(fixes[35].properties!.section).toBe('lanes');
  expect(fixes[5].properties!.crossTrack).toBeCloseTo(1, 2);
  const excursions = features.filter(({ properties }) => properties?.kind === 'excursion');
  expect(excursions.map(({ properties }) => [properties!.firstFix, properties!.lastFix, properties!.section])).toEqual([
    [40, 44, 'lanes'],
  ]);
  expect(excursions[0].properties!.peak).toBeCloseTo(20, 0);
  expect(excursions[0].properties!.duration).toBe(16);
  // with the fix before and the one after
  expect((excursions[0].geometry as LineString).coordinates.length).toBe(7);
  expect(JSON.parse(writeGeoJson(walk, { matched, maxDistance: 50 })).features.length).toBe(60);
  expect(JSON.parse(writeGeoJson(walk, { matched, maxDistance: 0.5 })).features.length).toBeGreaterThan(60);
});

test('a table of matched fixes names its units', () => {
  const [header, ...rows] = writeCsv(walk, { matched }).trimEnd().split('\r\n');
  expect(header).toBe(
    'recording,segment,time (UTC),longitude (deg),latitude (deg),along-track (m),cross-track (m; right positive),distance (m),section,state',
  );
  expect(rows.length).toBe(60);
  expect(rows[5].split(',')[8]).toBe('quay');
  expect(Number(rows[5].split(',')[6])).toBe(matched.snapped.crossTrack[5]);
});

test('a table of a route names the section of each vertex', () => {
  const [header, ...rows] = writeCsv(quay).trimEnd().split('\r\n');
  expect(header).toBe('longitude (deg),latitude (deg),along-track (m),lateral uncertainty 95 % (m),section');
  expect(rows[0]).toBe('5,60,0,,quay');
  expect(rows.at(-1)!.endsWith(',steps')).toBe(true);
  expect(rows.length).toBe(quay.lon.length);
});

test('cells are quoted as RFC 4180 has it', () => {
  const recording = { ...walk, name: 'a "b", c' };
  expect(writeCsv(recording).split('\r\n')[1].startsWith('"a ""b"", c",1,')).toBe(true);
  expect(() => writeCsv([walk, walk])).toThrow(
    expect.objectContaining({ reason: 'ambiguous', message: expect.stringContaining('of different names') }),
  );
});

test('matched belongs to one recording, and to each of its fixes', () => {
  const refusal = (what: Parameters<typeof writeGeoJson>[0], other = matched) => {
    for (const write of [writeGeoJson, writeCsv]) {
      try {
        write(what, { matched: other });
      } catch (error) {
        if (write === writeCsv) return `${(error as { reason: string }).reason}: ${(error as Error).message}`;
      }
    }
    return 'written';
  };
  expect(refusal(quay)).toBe("misplaced: options.matched must be given with one recording, not 'a line'");
  expect(refusal([walk, { ...walk, name: 'b' }])).toBe(
    'misplaced: options.matched must be given with one recording, not 2',
  );
  const short = { ...matched.snapped, state: matched.snapped.state.slice(1) };
  expect(refusal(walk, { ...matched, snapped: short })).toMatch(
    /^out-of-range: options.matched.snapped.\w+ length must be \d+, as \w+ has/,
  );
});

test('lines over ±180° are cut there, the latitude in between', () => {
  const { features } = JSON.parse(
    writeGeoJson(
      routeFromLine(
        [
          [179.5, 0],
          [-179.5, 1],
        ],
        { maxSpacing: 1e6 },
      ),
    ),
  ) as FeatureCollection;
  const { coordinates } = features[0].geometry as unknown as { coordinates: number[][][] };
  expect(coordinates.map((part) => part.map(([lon]) => lon))).toEqual([
    [179.5, 180],
    [-180, -179.5],
  ]);
  expect(coordinates[0][1][1]).toBe(0.5);
});
