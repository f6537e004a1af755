import {
  anonymise,
  areaBetween,
  areasFromGeoJson,
  assess,
  combine,
  combineByTime,
  type DrawnRoute,
  densify,
  draftRoute,
  InputError,
  joinRoutes,
  judgeByTime,
  offsetRoute,
  pointAt,
  type RouteBuilder,
  readCsv,
  reverseRoute,
  routeBuilder,
  routeFromGeoJson,
  routeFromLine,
  rowOf,
  snap,
  writeCsv,
  writeKml,
} from 'datumline';
import { reportHtml, reportPictures, timedToCsv, toPng } from 'datumline/report';
import { expect, test } from 'vitest';

const route = routeFromLine([
  [5, 60],
  [5.002, 60],
]);
const built = (draw: (builder: RouteBuilder) => RouteBuilder) =>
  draw(routeBuilder().start([5, 60]).lineBy({ azimuth: 80, distance: 60 })).build();
const recording = readCsv('time,lon,lat\n1000000000,5.0001,60\n1000000060,5.001,60\n1000000120,5.0019,60')[0];
const assessment = assess(route, [recording]);
const walk = readCsv(
  `time,lon,lat\n${Array.from({ length: 60 }, (_, i) => `${1e9 + i},${5 + i / 20_000},60`).join('\n')}`,
  { name: 'walk' },
)[0];
const timed = judgeByTime(walk, [{ ...walk, lat: walk.lat.map((y) => y + 1e-5) }]);
/** A line and an area of that name. */
const named = (name: unknown): DrawnRoute => ({
  type: 'FeatureCollection',
  features: [
    { type: 'Feature', properties: {}, geometry: { type: 'LineString', coordinates: [[5, 60], [5.01, 60]] } },
    { type: 'Feature', properties: { name }, geometry: { type: 'Polygon', coordinates: [[[4, 59], [6, 59], [6, 61], [4, 59]]] } },
  ],
}); // biome-ignore format: as a table

// found by npm run fuzz, 2026-11-28
test.each<[string, () => unknown, string]>([
  [
    'a way back as far off as no place is',
    () =>
      routeBuilder()
        .start([5, 60])
        .outAndBack((out) => out.lineBy({ azimuth: 0, distance: 50 }).lineBy({ azimuth: 90, distance: 50 }), {
          returnBeside: { side: 'left', metres: 1e15 },
        })
        .build(),
    'metres beside a line',
  ],
  ['a route beside, as far off', () => offsetRoute(route, { side: 'left', metres: 1e15 }), 'metres beside a line'],
  [
    'a route whose laps are none',
    () => offsetRoute({ ...route, laps: 5 as never }, { side: 'left', metres: 1 }),
    'route',
  ],
  ['a route whose warnings are none', () => reverseRoute({ ...route, warnings: 'x' as never }), 'route'],
  ['a route whose recipe is none', () => joinRoutes(route, { ...route, recipe: [Number.NaN] as never }), 'b'],
  [
    'a recording without a source',
    () => anonymise({ ...recording, source: undefined as never }),
    'recording.source.format',
  ],
  ['a recording whose name is a number', () => anonymise({ ...recording, name: NaN as never }), 'recording.name'],
  ['a recording whose issues are none', () => anonymise({ ...recording, issues: 5 as never }), 'recording.issues'],
  ['a list of holes, written', () => writeCsv(new Array(3) as never), 'line[0]'],
  ['a route whose laps hold nothing', () => reverseRoute({ ...route, laps: [undefined] as never }), 'route'],
  ['a line cut into more pieces than memory holds', () => densify(route, { maxSpacing: 1e-6 }), 'options.maxSpacing'],
  [
    'a million laps',
    () => built((b) => b.laps(1e6, (lap) => lap.lineBy({ azimuth: 0, distance: 5 }))),
    'steps[2] laps count',
  ],
  [
    'a way over to beyond the globe',
    () => built((b) => b.moveOver({ side: 'left', metres: 2e13, over: 24 })),
    'steps[2] moveOver radius',
  ],
  ['a million times round', () => built((b) => b.arc({ turn: 'left', radius: 20, sweep: 4e8 })), 'steps[2] arc sweep'],
  [
    'the row of an assessment whose rows are none',
    () => rowOf({ rows: [null as never] }, { recording: 'A' }),
    'assessment.rows[0]',
  ],
  [
    'pictures of receivers that are no list',
    () => reportPictures(assessment, { receivers: {} as never }),
    'options.receivers',
  ],
  [
    'an assessment one of whose rows is none',
    () => reportHtml({ ...assessment, rows: [null as never] }),
    'assessment.rows[0]',
  ],
  ['the same, combined', () => combine([{ ...assessment, rows: [null as never] }]), 'assessments[0].rows[0]'],
  ['an assessment whose order is none', () => reportHtml({ ...assessment, order: 5 as never }), 'assessment.order'],
  [
    'an assessment whose warnings are none',
    () => reportHtml({ ...assessment, warnings: {} as never }),
    'assessment.warnings',
  ],
  ['recordings that are holes', () => draftRoute(new Array(3)), 'recordings[0]'],
  [
    'a place so far along that its square is none',
    () => areaBetween(route, { alongTrack: [0, 1e200, 5], crossTrack: [1, 1e12, 2] } as never),
    'snapped.alongTrack[1]',
  ],
  ['a route one of whose columns is a number', () => pointAt({ ...route, lat: 1e91 as never }, 2), 'route'],
  ['a route whose length is a symbol', () => pointAt({ ...route, length: Symbol.iterator as never }, 2), 'route'],
  ['places that are null', () => writeCsv(recording, { matched: null as never }), 'options.matched.snapped'],
  ['a route whose arcs are numbers', () => reverseRoute({ ...route, arcs: [[5, 60]] as never }), 'route'],
  ['an area whose name is no number', () => routeFromGeoJson(named(Number.NaN)), 'features[1] properties.name'],
  ['an error as large as no planet', () => snap(route, recording, { sigma: 1e200 }), 'options.sigma'],
  [
    'a picture as wide as no number',
    () => reportPictures(assessment, { width: Symbol.iterator as never }),
    'options.width',
  ],
  ['the same, combined over runs', () => combineByTime(new Array(2)), 'timed[0]'],
  ['timed assessments that are holes', () => timedToCsv(new Array(2)), 'timed[0]'],
  ['a timed assessment whose rows are none', () => timedToCsv({ ...timed, rows: 5 as never }), 'timed.rows'],
  [
    'a row of a recording that is not there',
    () => timedToCsv({ ...timed, recordings: [], rows: [timed.rows[0]] }),
    'timed.rows[0].recording',
  ],
  ['a route longer than its vertices', () => assess({ ...route, length: 8e11 }, [recording]), 'route'],
  [
    'a line to the pole by a slip of the pen',
    () =>
      routeFromLine([
        [5, 60],
        [90, -90],
      ]).length,
    'route',
  ],
  [
    'a route whose sections are none, written with its corridor',
    () => writeKml({ ...route, sections: {} as never }, { corridor: 'edges' }),
    'route',
  ],
])('%s is refused by name', (_, call, argument) => {
  let refused: unknown;
  try {
    call();
  } catch (error) {
    refused = error;
  }
  expect(refused).toBeInstanceOf(InputError);
  expect((refused as InputError).argument).toBe(argument);
});

test('a feature that is a hole is no area, as one that is null', () => {
  expect(() => areasFromGeoJson({ type: 'FeatureCollection', features: new Array(1) })).toThrow(InputError);
  expect(() => areasFromGeoJson({ type: 'FeatureCollection', features: [null as never] })).toThrow(InputError);
});

test('a PNG whose fonts are no list', async () => {
  await expect(toPng('<svg/>', { fontFiles: 5 as never })).rejects.toThrow(/^options.fontFiles must be an array/);
});
