import { routeBuilder } from 'datumline/route';
import { expect, test } from 'vitest';
import { EdgeFeet } from '../../src/geodesy';
import { Vertices } from '../../src/index';
import { countCalls } from '../support/countCalls';

const lapsOfOneMetre = (count: number) =>
  routeBuilder()
    .start([5, 60])
    .laps(count, (lap) => {
      for (const azimuth of [0, 90, 180, 270]) lap.lineBy({ azimuth, distance: 0.25 });
    })
    .build();

/** Roots drawn, feet dropped and vertices compared: what building and warnings are made of. */
function workOf(run: () => unknown): number {
  let [roots, feet] = [0, 0];
  const compared = countCalls(Vertices.prototype, 'squaredDistance', () => {
    feet = countCalls(EdgeFeet.prototype, 'measure', () => {
      roots = countCalls(Math, 'sqrt', run);
    });
  });
  return roots + feet + compared;
}

test('laps of a metre, eight times as many: eight times the work to build and to warn of, not the square', () => {
  const [few, many] = [1000, 8000].map((count) => ({
    build: workOf(() => lapsOfOneMetre(count)),
    warn: workOf(() => lapsOfOneMetre(count).warnings),
  }));
  expect(few.build).toBeGreaterThan(1000);
  expect(few.warn).toBeGreaterThan(few.build);
  expect(many.build / few.build).toBeLessThan(9);
  // n log n
  expect(many.warn / few.warn).toBeLessThan(11);
});
