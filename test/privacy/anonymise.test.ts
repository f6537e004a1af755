import {
  anonymise,
  drawZone,
  inverse,
  type Recording,
  readGpx,
  routeFromLine,
  snap,
  writeCsv,
  writeGeoJson,
  writeGpx,
  writeKml,
} from 'datumline';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { seeded } from '../support/randomLine';

const BEGIN = Date.UTC(2026, 4, 1, 8);
/** From a door 330 m before the route, along it, and 330 m past its end; a fix every 11 m and second, with everything on it. */
const walk: Recording = {
  ...readGpx(
    `<gpx creator="Somebody's watch 4711"><trk><name>chest</name><desc>from my door</desc><trkseg>${Array.from(
      { length: 161 },
      (
        _,
        i,
      ) => `<trkpt lat="60" lon="${4.994 + i * 2e-4}"><ele>${i}</ele><time>${new Date(BEGIN + i * 1000).toISOString()}</time>
      <extensions><hr>120</hr></extensions></trkpt>`,
    ).join('')}</trkseg></trk></gpx>`,
  )[0],
};
const route = routeFromLine([
  [5, 60],
  [5.02, 60],
]);
const reasons = ({ issues }: Recording) => issues.map(({ reason, count }) => `${reason} ${count}`);

test('by default: relative times, no attributes, nothing of the source but the format', () => {
  const shown = anonymise(walk);
  expect(shown.time![0]).toBe(0);
  expect(shown.time![160]).toBe(160_000);
  expect(shown.attributes).toEqual({});
  expect(shown.source).toEqual({ format: 'gpx' });
  expect([shown.name, shown.lon, shown.height]).toEqual(['chest', walk.lon, walk.height]);
  expect(anonymise(walk, { times: 'absolute' }).time).toEqual(walk.time);
  expect(anonymise(walk, { times: 'none' }).time).toBeUndefined();
  expect(anonymise(walk, { since: BEGIN - 5000 }).time![0]).toBe(5000);
});

test('nothing of the person is in what any writer writes', () => {
  for (const write of [writeGpx, writeKml, writeGeoJson, writeCsv]) {
    const text = write(walk);
    for (const secret of ['Somebody', '4711', 'door', '2026']) expect(text, write.name).not.toContain(secret);
    expect(text).not.toMatch(/<(\w+:)?hr>|heart/i);
    expect(write(walk, { identity: 'keep', times: 'absolute' })).toContain('2026-05-01');
  }
});

test('nothing of a fix that was cut out is left anywhere', () => {
  const secrets = ["Somebody's watch 4711", 'unit-0815', 'from my door', 'my street 7', '2026-05-01', 'pulse'];
  fc.assert(
    fc.property(fc.integer(), fc.constantFrom('route', 'disc', 'ring', 'both'), (seed, how) => {
      const random = seeded(seed);
      // every number of every fix is its own, to fifteen digits, so that any that is left can be found
      const unique = (low: number, width: number) => low + width * random();
      const n = 60;
      const column = (value: (i: number) => number) => Float64Array.from({ length: n }, (_, i) => value(i));
      const begin = BEGIN + Math.floor(random() * 1e6);
      const recording = {
        name: 'chest',
        lon: column((i) => unique(4.99 + i * 7e-4, 6e-4)),
        lat: column(() => unique(60, 1e-4)),
        time: column((i) => begin + i * 1000 + Math.floor(unique(100, 800))),
        height: column(() => unique(100, 50)),
        hdop: column(() => unique(1, 5)),
        accuracy: column(() => unique(2, 9)),
        gapBefore: Uint8Array.from({ length: n }, (_, i) => (i === 0 || random() < 0.1 ? 1 : 0)),
        issues: [],
        source: { format: 'tcx', creator: secrets[0], serial: secrets[1] },
        attributes: { desc: secrets[2], Id: '2026-05-01T08:00:00Z', notes: secrets[3] },
        heartRate: column(() => unique(100, 80)),
        pulse: 'pulse',
      } as Recording;
      const options = {
        ...(how === 'route' || how === 'both' ? { route } : {}),
        ...(how === 'disc' || how === 'both' ? { zones: [{ centre: [5.012, 60.00005], radius: 150 }] } : {}),
        ...(how === 'ring' ? { zones: [[[5.005, 59], [5.012, 59], [5.012, 61], [5.005, 61]]] } : {}), // biome-ignore format: a ring
      };
      const shown = anonymise(recording, options);
      const kept = new Set(shown.lon);
      const gone = Array.from({ length: n }, (_, i) => i).filter((i) => !kept.has(recording.lon[i]));
      expect(gone.length).toBeGreaterThan(3);
      const forbidden = gone.flatMap((i) => [
        ...(['lon', 'lat', 'height', 'hdop', 'accuracy'] as const).map((key) => String(recording[key]![i])),
        String(recording.time![i]),
        new Date(recording.time![i]).toISOString(),
        // nor relative to anything but the first fix shown
        new Date(recording.time![i] - recording.time![0]).toISOString().slice(11, -1),
      ]);
      const all = Array.from((recording as unknown as { heartRate: Float64Array }).heartRate, String);
      const listed = JSON.stringify(shown, (_, value) =>
        ArrayBuffer.isView(value) ? [...(value as Float64Array)] : value,
      );
      for (const text of [listed, ...[writeGpx, writeKml, writeGeoJson, writeCsv].map((write) => write(shown))]) {
        expect([...secrets, ...forbidden, ...all].filter((secret) => text.includes(secret))).toEqual([]);
      }
      // nor in what the columns are views of
      for (const key of ['lon', 'lat', 'time', 'height', 'gapBefore'] as const) {
        expect(shown[key]!.buffer.byteLength).toBe(shown[key]!.byteLength);
      }
    }),
    { seed: 43, numRuns: 60 },
  );
});

test('a matched recording is written from where it joined the route to where it left it', () => {
  const snapped = snap(route, walk);
  const on = Array.from(snapped.state.keys()).filter((i) => ['on', 'off'].includes(snapped.state[i]));
  expect(on.length).toBeGreaterThan(90);
  expect(on.length).toBeLessThan(130);
  const fixes = (text: string) =>
    JSON.parse(text).features.filter(({ properties }: { properties: { kind: string } }) => properties.kind === 'fix');
  const shown = fixes(writeGeoJson(walk, { matched: { route, snapped } }));
  expect(shown.map(({ geometry }: { geometry: { coordinates: number[] } }) => geometry.coordinates[0])).toEqual(
    on.map((i) => walk.lon[i]),
  );
  expect(shown[0].properties).toMatchObject({
    // numbered as in the recording, in every table and map alike
    fix: on[0],
    time: '1970-01-01T00:00:00Z',
    alongTrack: snapped.alongTrack[on[0]],
  });
  expect(writeCsv(walk, { matched: { route, snapped } }).trimEnd().split('\r\n').length).toBe(on.length + 1);
  expect(fixes(writeGeoJson(walk, { matched: { route, snapped }, identity: 'keep' })).length).toBe(161);
});

test('with a route only what lies on its extent, times from the first fix kept', () => {
  const shown = anonymise(walk, { route });
  expect(shown.lon.every((lon) => lon > 5 - 1e-7 && lon < 5.02 + 1e-7)).toBe(true);
  expect(shown.lon.length).toBe(101);
  expect(shown.time![0]).toBe(0);
  expect(reasons(shown)).toEqual(['cut-off-route 60']);
  // a detour in the middle is cut, and the line broken there
  const lat = walk.lat.slice();
  for (let i = 70; i < 75; i++) lat[i] += 0.001;
  const detour = anonymise({ ...walk, lat }, { route, maxDistance: 30 });
  expect(detour.lon.length).toBe(96);
  expect([...detour.gapBefore].flatMap((gap, i) => (gap ? [i] : []))).toEqual([0, 40]);
  expect(anonymise({ ...walk, lat }, { route, maxDistance: 200 }).lon.length).toBe(101);
});

test('zones are cut out: discs, polygons with holes, rings, over ±180° too', () => {
  const inside = (shown: Recording, from: number, to: number) =>
    [...shown.lon].filter((lon) => lon > from && lon < to).length;
  const disc = anonymise(walk, { zones: [{ centre: [4.994, 60], radius: 200 }] });
  for (let i = 0; i < disc.lon.length; i++)
    expect(inverse([4.994, 60], [disc.lon[i], disc.lat[i]]).distance).toBeGreaterThan(200);
  expect(reasons(disc)[0]).toMatch(/^cut-zone \d+$/);
  const ring = [
    [5.005, 59],
    [5.01, 59],
    [5.01, 61],
    [5.005, 61],
  ];
  const hole = [
    [5.007, 59.5],
    [5.008, 59.5],
    [5.008, 60.5],
    [5.007, 60.5],
  ];
  expect(inside(anonymise(walk, { zones: [ring] }), 5.005, 5.01)).toBe(0);
  expect([...anonymise(walk, { zones: [ring] }).gapBefore].reduce((sum, gap) => sum + gap, 0)).toBe(2);
  const polygon = anonymise(walk, { zones: [{ type: 'Polygon', coordinates: [ring, hole] }] });
  expect(inside(polygon, 5.0071, 5.0079)).toBe(4);
  expect(inside(polygon, 5.005, 5.0069)).toBe(0);
  const far = { ...walk, lon: walk.lon.map((lon) => ((lon + 174.995 + 540) % 360) - 180) };
  const over = anonymise(far, {
    zones: [
      [
        [179.999, 59],
        [-179.997, 59],
        [-179.997, 61],
        [179.999, 61],
      ],
    ],
  });
  expect([...over.lon].some((lon) => lon > 179.999 || lon < -179.997)).toBe(false);
  expect(over.lon.length).toBeLessThan(161);
  expect(over.lon.length).toBeGreaterThan(130);
});

test('a drawn disc covers the place, its centre well away from it, anywhere', () => {
  fc.assert(
    fc.property(
      fc.integer(),
      fc.double({ min: -180, max: 180, noNaN: true }),
      fc.double({ min: -89, max: 89, noNaN: true }),
      (seed, lon, lat) => {
        const { centre, radius, offset } = drawZone([lon, lat], { radius: 300, random: seeded(seed) });
        expect([centre, radius]).toEqual([[lon, lat], 300]);
        expect(offset!.distance).toBeGreaterThanOrEqual(90);
        expect(offset!.distance).toBeLessThan(240);
        expect(offset!.azimuth).toBeGreaterThanOrEqual(0);
        expect(offset!.azimuth).toBeLessThan(360);
      },
    ),
    { seed: 41, numRuns: 200 },
  );
  // drawn by the platform's generator: not the same twice
  expect(drawZone([5, 60], { radius: 300 })).not.toEqual(drawZone([5, 60], { radius: 300 }));
});

test('the middle of the fixes cut by a disc does not tell the place', () => {
  // on a straight line through the place the cut's middle would be the place itself, were the disc not moved
  const offsets = Array.from({ length: 40 }, (_, seed) => {
    const zone = drawZone([5.005, 60], { radius: 150, random: seeded(seed) });
    const kept = [...anonymise(walk, { zones: [zone] }).lon];
    const gone = [...walk.lon].filter((lon) => !kept.includes(lon));
    return inverse([5.005, 60], [(gone[0] + gone[gone.length - 1]) / 2, 60]).distance;
  });
  expect(offsets.filter((distance) => distance > 20).length).toBeGreaterThan(25);
});

test('a gap in what was cut stays one; inputs are not written to', () => {
  const gapBefore = walk.gapBefore.slice();
  gapBefore[50] = 1;
  const given = structuredClone({ ...walk, gapBefore });
  const shown = anonymise(given, { route });
  expect([...shown.gapBefore].flatMap((gap, i) => (gap ? [i] : []))).toEqual([0, 20]);
  expect(given).toEqual({ ...walk, gapBefore });
});

test.each<[string, object, string, string]>([
  [
    'nothing left',
    { zones: [{ centre: [5.01, 60], radius: 1e5 }] },
    'too-few',
    'recording must be one of which at least 2 fixes may be shown, not 0',
  ],
  [
    'times of another kind',
    { times: 'local' },
    'wrong-type',
    "options.times must be 'relative', 'absolute' or 'none', not 'local'",
  ],
  [
    'a zone that is none',
    { zones: [5] },
    'wrong-type',
    'options.zones[0] must be a disc { centre, radius }, a polygon or a ring',
  ],
  [
    'a ring of two',
    {
      zones: [
        [
          [5, 60],
          [6, 60],
        ],
      ],
    },
    'too-few',
    'options.zones[0] ring 0 must be a ring of at least 3 positions',
  ],
  [
    'a radius of 0',
    { zones: [{ centre: [5, 60], radius: 0 }] },
    'out-of-range',
    'options.zones[0] radius must be a number above 0',
  ],
  [
    'swapped',
    { zones: [{ centre: [5, 95], radius: 9 }] },
    'swapped',
    'options.zones[0] centre latitude must be within',
  ],
  ['no width', { route, maxDistance: 0 }, 'out-of-range', 'options.maxDistance must be a number above 0'],
  ['an unknown key', { blur: 1 }, 'unknown-key', 'options.blur must be one of route, maxDistance, zones'],
])('%s is refused', (_, options, reason, message) => {
  expect(() => anonymise(walk, options)).toThrow(
    expect.objectContaining({ reason, message: expect.stringContaining(message) }),
  );
});

test('an issue that is none is refused, not handed on', () => {
  expect(() => anonymise({ ...walk, issues: [Number.NaN as never] })).toThrow(
    'recording.issues[0].message must be a string',
  );
});
