import {
  anonymise,
  type Recording,
  readCsv,
  readGeoJson,
  readGpx,
  readKml,
  routeFromLine,
  writeCsv,
  writeGeoJson,
  writeGpx,
  writeKml,
} from 'datumline';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { recordings } from '../support/recordings';

/** What is held equal: all but how it was read. */
function content({ name, lon, lat, time, height, hdop, satellites, accuracy, gapBefore, attributes }: Recording) {
  return { name, lon, lat, time, height, hdop, satellites, accuracy, gapBefore, attributes };
}

const pairs = [
  ['GPX', writeGpx, readGpx],
  ['KML', writeKml, readKml],
  ['GeoJSON', writeGeoJson, readGeoJson],
  ['CSV', writeCsv, readCsv],
] as const;

test.each(pairs)('what is written as %s is read back equal, to the last digit', (format, write, read) => {
  fc.assert(
    fc.property(recordings, (recording) => {
      const written = write(recording, { identity: 'keep', times: 'absolute' });
      const [back, ...others] = read(written);
      expect(others).toEqual([]);
      // a table holds no attributes
      expect(content(back)).toEqual(content(format === 'CSV' ? { ...recording, attributes: {} } : recording));
      expect(content(read(new TextEncoder().encode(written))[0])).toEqual(content(back));
    }),
    { seed: 21, numRuns: 300 },
  );
});

test.each(pairs)('by default what is written as %s is the anonymised recording', (_, write, read) => {
  fc.assert(
    fc.property(recordings, (recording) => {
      const [back] = read(write(recording));
      expect(content(back)).toEqual(content(anonymise(recording)));
      expect(write(recording)).toBe(write(anonymise(recording), { identity: 'keep', times: 'absolute' }));
      const [timeless] = read(write(recording, { times: 'none' }));
      expect(timeless.time).toBeUndefined();
    }),
    { seed: 22, numRuns: 100 },
  );
});

test.each(pairs)('several recordings in one %s keep their names, and count from the earliest', (_, write, read) => {
  const base = {
    lat: Float64Array.of(60, 60.00001),
    gapBefore: Uint8Array.of(1, 0),
    issues: [],
    source: { format: 'gpx' as const },
  };
  const both: Recording[] = [
    {
      ...base,
      name: 'chest',
      lon: Float64Array.of(5, 5),
      time: Float64Array.of(1e12 + 500, 1e12 + 1500),
      attributes: {},
    },
    { ...base, name: 'helmet', lon: Float64Array.of(6, 6), time: Float64Array.of(1e12, 1e12 + 1000), attributes: {} },
  ];
  const back = read(write(both));
  expect(back.map(({ name, time }) => [name, Array.from(time!)])).toEqual([
    ['chest', [500, 1500]],
    ['helmet', [0, 1000]],
  ]);
});

test.each(pairs)('a line and a route written as %s are read back, over the ±180° meridian too', (_, write, read) => {
  const line = [
    [179.9995, 60],
    [-179.9995, 60.0005],
    [-179.999, 60.0005],
  ];
  expect(Array.from(read(write(line))[0].lon)).toEqual(line.map(([lon]) => lon));
  const route = routeFromLine(line, { name: 'loop', maxSpacing: 20 });
  const [back] = read(write(route, {}));
  expect(back.lon.length).toBe(route.lon.length);
  // the route's longitudes run on over 180°; a document's are within [-180, 180)
  expect(route.lon.some((lon) => lon > 180)).toBe(true);
  expect(back.lon.every((lon, i) => Math.abs(((lon - route.lon[i] + 540) % 360) - 180) < 1e-9)).toBe(true);
  expect(back.lat).toEqual(route.lat);
  expect(Array.from(back.gapBefore.slice(1)).every((gap) => gap === 0)).toBe(true);
});

test.each(pairs)('what can not be written as %s is refused', (_, write) => {
  const good: Recording = {
    name: 'a',
    lon: Float64Array.of(5, 5.1),
    lat: Float64Array.of(60, 60),
    time: Float64Array.of(0, 1000),
    gapBefore: Uint8Array.of(1, 0),
    issues: [],
    source: { format: 'gpx' },
    attributes: {},
  };
  const refusal = (what: unknown, options?: object) => {
    try {
      write(what as Recording, options as object);
    } catch (error) {
      return `${(error as { reason: string }).reason}: ${(error as Error).message}`;
    }
    return 'written';
  };
  expect(refusal(good)).toBe('written');
  expect(refusal({ ...good, lat: Float64Array.of(60, 95) })).toMatch(
    /^swapped: recording fix 1 latitude must be within/,
  );
  expect(refusal({ ...good, lat: Float64Array.of(60, Number.NaN) })).toMatch(/^not-finite: recording fix 1 latitude/);
  expect(refusal({ ...good, lat: Float64Array.of(60) })).toMatch(
    /^out-of-range: recording.lat length must be 2, as lon has, not 1/,
  );
  expect(refusal({ ...good, height: Float64Array.of(1, Infinity) })).toMatch(
    /^not-finite: recording.height\[1\] must be a finite/,
  );
  expect(refusal({ ...good, name: '' })).toMatch(/^wrong-type: recording.name must be a string that is not blank/);
  expect(refusal({ ...good, time: Float64Array.of(0, 1e15) }, { times: 'absolute' })).toMatch(
    /^out-of-range: recording.time\[1\] must be an instant/,
  );
  expect(refusal([good, { ...good, gapBefore: Uint8Array.of(0, 0) }])).toMatch(
    /^out-of-range: recordings\[1\].gapBefore\[0\] must be 1/,
  );
  expect(refusal([[5, 60]])).toMatch(/^too-few: line must be a line of at least 2 positions/);
  expect(
    refusal([
      [5, 60],
      [5, 95],
    ]),
  ).toMatch(/^swapped: line\[1\] latitude/);
  expect(refusal([])).toMatch(/^too-few: line/);
  expect(refusal('x')).toMatch(
    /^wrong-type: line must be positions, a GeoJSON LineString, a route, a recording or columns lon and lat, not 'x'/,
  );
  expect(refusal(good, { identity: 'maybe' })).toMatch(/^wrong-type: options.identity must be 'strip' or 'keep'/);
  expect(refusal(good, { times: 'maybe' })).toMatch(
    /^wrong-type: options.times must be 'relative', 'absolute' or 'none'/,
  );
  expect(refusal(good, { speed: 1 })).toMatch(/^unknown-key: options.speed/);
});

test('XML refuses text that it can not hold', () => {
  const recording = readCsv('lat,lon\n60,5\n60,5.1')[0];
  for (const write of [writeGpx, writeKml]) {
    for (const name of ['a\u0000', 'a\u001f', '\ud800', '\uffff']) {
      expect(() => write({ ...recording, name })).toThrow('recording.name must be a string without control characters');
    }
  }
});
