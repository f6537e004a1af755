import {
  anonymise,
  assess,
  InputError,
  joinRoutes,
  offsetRoute,
  readCsv,
  reverseRoute,
  routeBuilder,
  routeFromLine,
  writeCsv,
} from 'datumline';
import { reportHtml } from 'datumline/report';
import { expect, test } from 'vitest';

const route = routeFromLine([
  [5, 60],
  [5.002, 60],
]);
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
  ['an assessment whose order is none', () => reportHtml({ ...assessment, order: 5 as never }), 'assessment'],
  ['an assessment whose warnings are none', () => reportHtml({ ...assessment, warnings: {} as never }), 'assessment'],
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
