import * as datumline from 'datumline';
import { InputError } from 'datumline';
import * as report from 'datumline/report';
import { expect, test } from 'vitest';

const route = datumline.routeFromLine([
  [5, 60],
  [5.01, 60],
]);
const recording = datumline.readCsv('time,lon,lat\n1000000000,5.001,60\n1000000060,5.002,60\n1000000120,5.003,60')[0];

const index = datumline.indexRoute(route);
const functions = Object.entries({ ...datumline, ...report, ...index } as Record<string, unknown>).filter(
  ([name, value]) => typeof value === 'function' && /^[a-z]/.test(name),
) as [string, (...args: unknown[]) => unknown][];

const nothings = [
  undefined,
  null,
  5,
  Number.NaN,
  'x',
  true,
  {},
  [],
  [null],
  [[]],
  () => 5,
  new Date(0),
  Symbol.iterator,
];
/** What stands in the places before the one that is wrong, and what may stand behind it. */
const rights: readonly (readonly unknown[])[] = [
  [],
  [route],
  [route, recording],
  [route, [recording, recording]],
  [recording],
  [[recording]],
  [[5, 60]],
  [
    [5, 60],
    [5.01, 60],
  ],
  [
    [
      [5, 60],
      [5.01, 60],
    ],
  ],
  [
    [
      [5, 60],
      [5.01, 60],
    ],
    [
      [5, 60],
      [5.01, 60],
    ],
  ],
];

test.each(functions)(
  '%s: what is no argument ends in InputError or an answer, never in another error',
  async (_, call) => {
    for (const before of rights) {
      for (const nothing of nothings) {
        for (const args of [
          [...before, nothing],
          [...before, nothing, nothing],
        ]) {
          try {
            await call(...args);
          } catch (error) {
            const shown = args.map((arg) =>
              typeof arg === 'symbol'
                ? 'a symbol'
                : typeof arg === 'object'
                  ? JSON.stringify(arg)?.slice(0, 40)
                  : String(arg),
            );
            expect(error, shown.join(', ')).toBeInstanceOf(InputError);
          }
        }
      }
    }
  },
);

test('there are as many functions as the API page lists', () => {
  expect(functions.length).toBeGreaterThan(50);
});
