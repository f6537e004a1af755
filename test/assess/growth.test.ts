import { assess, combine, pointAt, type Route, recordingFrom, routeBuilder } from 'datumline';
import { expect, test } from 'vitest';

const lapsOf = (count: number): Route =>
  routeBuilder({ lateral95: 1, halfWidth: 5 })
    .start([5.1, 60.1])
    .laps(count, (lap) => {
      for (const azimuth of [0, 90, 180, 270]) lap.section(`${azimuth}`).lineBy({ azimuth, distance: 8 });
    })
    .build();

/** Members that `filter` and `find` pass over while something runs, of all lists together. */
function membersSearched(run: () => unknown): number {
  const { filter, find } = Array.prototype;
  let members = 0;
  const counting = (search: typeof filter | typeof find) =>
    function (this: unknown[], ...given: never[]) {
      members += this.length;
      return (search as (...given: never[]) => unknown).apply(this, given);
    };
  Object.assign(Array.prototype, { filter: counting(filter), find: counting(find) });
  try {
    run();
  } finally {
    Object.assign(Array.prototype, { filter, find });
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
