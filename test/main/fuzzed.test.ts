import {
  anonymise,
  areaBetween,
  areasFromGeoJson,
  assess,
  combine,
  densify,
  draftRoute,
  InputError,
  joinRoutes,
  offsetRoute,
  pointAt,
  type RouteBuilder,
  readCsv,
  reverseRoute,
  routeBuilder,
  routeFromLine,
  rowOf,
  writeCsv,
  writeKml,
} from 'datumline';
import { reportHtml, reportPictures } from 'datumline/report';
import { expect, test } from 'vitest';

const route = routeFromLine([
  [5, 60],
  [5.002, 60],
]);
const built = (draw: (builder: RouteBuilder) => RouteBuilder) =>
  draw(routeBuilder().start([5, 60]).lineBy({ azimuth: 80, distance: 60 })).build();
const recording = readCsv('time,lon,lat\n1000000000,5.0001,60\n1000000060,5.001,60\n1000000120,5.0019,60')[0];
const assessment = assess(route, [recording]);

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
