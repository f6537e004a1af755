import {
  assess,
  bufferShare,
  bufferWidth,
  densify,
  directedHausdorff,
  discreteFrechet,
  frechet,
  hausdorff,
  type Line,
  lineLength,
  readGeoJson,
  readGpx,
  routeBuilder,
  routeFromLine,
  withinFrechet,
  writeCsv,
  writeGeoJson,
  writeGpx,
  writeKml,
} from 'datumline';
import { expect, test } from 'vitest';

const positions: [number, number][] = [
  [5, 60],
  [5.001, 60.0004],
  [5.002, 60],
];
const other: [number, number][] = [
  [5, 60.0001],
  [5.002, 60.0001],
];
const route = routeFromLine(positions, { maxSpacing: 1e6 });
const recording = readGeoJson(JSON.stringify({ type: 'LineString', coordinates: positions }), { name: 'walk' })[0];

const fixed = [
  [5, 60],
  [5.001, 60.0004],
  [5.002, 60],
] as const;

const forms: readonly (readonly [form: string, line: Line | (() => Line)])[] = [
  ['positions', positions],
  ['a GeoJSON LineString', { type: 'LineString', coordinates: positions }],
  ['a Feature', { type: 'Feature', properties: null, geometry: { type: 'LineString', coordinates: positions } }],
  ['tuples that nobody may write to', fixed],
  ['a LineString that nobody may write to', { type: 'LineString', coordinates: fixed } as const],
  ['a set', new Set(positions)],
  ['a generator, which can be gone through once', () => positions.values()],
  ['a route', route],
  ['a recording', recording],
  ['columns', { lon: positions.map(([lon]) => lon), lat: positions.map(([, lat]) => lat) }],
];

const uses: Record<string, (line: Line) => unknown> = {
  lineLength,
  densify: (line) => densify(line, { maxSpacing: 20 }),
  hausdorff: (line) => hausdorff(line, other).distance,
  directedHausdorff: (line) => directedHausdorff(other, line).distance,
  discreteFrechet: (line) => discreteFrechet(line, other),
  frechet: (line) => frechet(line, other),
  withinFrechet: (line) => withinFrechet(line, other, 40),
  bufferShare: (line) => bufferShare(line, other, 20),
  bufferWidth: (line) => bufferWidth(other, line),
  routeFromLine: (line) => Array.from(routeFromLine(line).lon),
  follow: (line) => routeBuilder().follow(line, { side: 'left', metres: 3 }).build().length,
  centreline: (line) => assess(route, [recording], { centreline: line }).rows[0].correctSide,
  writeGpx: (line) => readGpx(writeGpx(line, { corridor: 'none' }))[0].lon.join(),
  writeKml: (line) => writeKml(line).match(/<coordinates>.*<\/coordinates>/s)?.[0],
  writeGeoJson: (line) => JSON.parse(writeGeoJson(line)).features[0].geometry.coordinates,
  writeCsv: (line) => writeCsv(line).split('\n').length,
};

test.each(Object.entries(uses))('%s takes a line in every form, and says the same of it', (_, use) => {
  const expected = use(positions);
  expect(expected ?? undefined).not.toBeUndefined();
  for (const [form, line] of forms) expect(use(typeof line === 'function' ? line() : line), form).toEqual(expected);
});

test.each(Object.entries(uses).filter(([name]) => name !== 'centreline'))(
  '%s refuses what is no line by name',
  (_, use) => {
    for (const none of [
      null,
      5,
      'line',
      { type: 'Point', coordinates: [5, 60] },
      { type: 'Feature', geometry: null },
    ]) {
      expect(() => use(none as never)).toThrow(expect.objectContaining({ name: 'InputError', reason: 'wrong-type' }));
    }
    for (const bad of [
      [
        [5, 60],
        [60, 95],
      ],
      { lon: [5, 6], lat: [60, 95] },
    ]) {
      expect(() => use(bad as never)).toThrow(expect.objectContaining({ name: 'InputError' }));
    }
  },
);
