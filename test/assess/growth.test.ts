import { assess, combine, pointAt, type Route, recordingFrom, routeBuilder } from 'datumline';
import { describe, expect, test } from 'vitest';
import { besideRoute, steadyFixes } from '../support/besideRoute';

const lapsOf = (count: number): Route =>
  routeBuilder({ lateral95: 1, halfWidth: 5 })
    .start([5.1, 60.1])
    .laps(count, (lap) => {
      for (const azimuth of [0, 90, 180, 270]) lap.section(`${azimuth}`).lineBy({ azimuth, distance: 8 });
    })
    .build();

test('hundreds of recordings in one run are refused before they are measured, and what to do is said', () => {
  const builder = routeBuilder().start([5.1, 60.1]);
  for (let i = 0; i < 1500; i++) builder.section(`${i}`).lineBy({ azimuth: 90, distance: 2 });
  const route = builder.build();
  const fixes = steadyFixes({ from: 0, to: route.length }, () => 1);
  const many = Array.from({ length: 17 }, (_, k) => besideRoute(route, `${k}`, fixes));
  expect(() => assess(route, many)).toThrow(
    'recordings must be such as make at most 200000 comparisons, of every two of a run on every section, not 204136. State their runs',
  );
});

/** Members that array methods pass over while something runs, of all lists together. */
function membersSearched(run: () => unknown): number {
  const { filter, find, some, every, map, flatMap, forEach, reduce, indexOf, includes } = Array.prototype;
  const methods = { filter, find, some, every, map, flatMap, forEach, reduce, indexOf, includes };
  let members = 0;
  const counting = (method: (...given: never[]) => unknown) =>
    function (this: unknown[], ...given: never[]) {
      members += this.length;
      return method.apply(this, given);
    };
  const counted = Object.entries(methods).map(([name, method]) => [name, counting(method)]);
  Object.assign(Array.prototype, Object.fromEntries(counted));
  try {
    run();
  } finally {
    Object.assign(Array.prototype, methods);
  }
  return members;
}

function searchedFor(laps: number) {
  const route = lapsOf(laps);
  const fixes = Array.from({ length: Math.floor(route.length / 3) }, (_, i) => pointAt(route, 3 * i).position);
  const [lon, lat] = [fixes.map(([value]) => value), fixes.map(([, value]) => value)];
  const recordings = ['A', 'B'].map((name) => recordingFrom({ lon, lat, name }));
  const assessment = assess(route, recordings);
  return {
    assess: membersSearched(() => assess(route, recordings)),
    combine: membersSearched(() => combine([assessment, assessment])),
  };
}

test('twice as many laps with sections: assess and combine search about twice as many members, not four times', () => {
  const [some, twice] = [searchedFor(30), searchedFor(60)];
  expect(twice.assess / some.assess).toBeLessThan(2.3);
  expect(twice.combine / some.combine).toBeLessThan(2.3);
});

describe('twice as many runs: about twice the work, not four times', () => {
  const route = lapsOf(4);
  const recording = besideRoute(
    route,
    'A',
    steadyFixes({ from: 0, to: route.length }, (s) => Math.sin(s)),
  );
  const carried = (runs: number) =>
    Array.from({ length: runs }, (_, run) =>
      ['A', 'B', 'C'].map((receiver, i) => ({
        recording,
        receiver,
        placement: (run + i) % 2 === 0 ? 'left' : 'right',
        run: `run ${run}`,
      })),
    ).flat();
  const runs = [10, 20].map((count) => carried(count));

  test('in one assess', () => {
    const [some, twice] = runs.map((entries) => membersSearched(() => assess(route, entries)));
    expect(twice / some).toBeLessThan(2.2);
  });

  test('in one combine, of one assessment and of one each', () => {
    const [some, twice] = runs.map((entries) => {
      const all = assess(route, entries);
      return membersSearched(() => combine([all]));
    });
    expect(twice / some).toBeLessThan(2.2);
    const one = assess(route, carried(1));
    const [few, many] = [10, 20].map((count) => {
      const each = Array.from({ length: count }, () => one);
      return membersSearched(() => combine(each));
    });
    expect(many / few).toBeLessThan(2.2);
  });
});
