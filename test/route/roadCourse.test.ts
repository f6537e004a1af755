import { inverse } from 'datumline/geodesy';
import { offsetRoute, pointAt, routeBuilder, routeFromLine } from 'datumline/route';
import { expect, test } from 'vitest';
import { roadCourse } from '../published/roadCourse';
import { onEquator } from '../support/onEquator';

const { fromKerb, bends, shortByKerb } = roadCourse;
const fine = { maxSagitta: 1e-6, maxSpacing: 50 };

test.each(bends)('the shortest route round a kerb of $radius m that turns by $sweep° is $length m', (bend) => {
  const { radius, sweep, length } = bend;
  const [before, after] = [100, 50];
  const kerb = routeBuilder(fine)
    .start([8, 47])
    .lineBy({ azimuth: 0, distance: before })
    .arc({ turn: 'left', radius, sweep })
    .lineBy({ azimuth: -sweep, distance: after })
    .build();
  const course = offsetRoute(kerb, { side: 'right', metres: fromKerb });
  expect(Math.abs(course.length - (before + length + after))).toBeLessThan(1e-3);
});

test('round a sharp kerb corner it is an arc of 0.30 m', () => {
  const kerb = onEquator([
    [0, 0],
    [100, 0],
    [100, 60],
  ]);
  const course = routeBuilder().follow(kerb, { side: 'right', metres: fromKerb }).build();
  expect(Math.abs(course.length - (160 + (fromKerb * Math.PI) / 2))).toBeLessThan(1e-3);
});

test('measuring the kerb itself is short by 2π · 0.30 m in a full turn', () => {
  const block = routeFromLine(
    onEquator([
      [0, 0],
      [120, 0],
      [120, 80],
      [0, 80],
      [0, 0],
    ]),
  );
  const { length } = offsetRoute(block, { side: 'right', metres: fromKerb });
  expect(Math.abs(length - block.length - shortByKerb)).toBeLessThan(1e-3);
});

test('a course of straights and arcs, across a street from corner to corner, has the length of the closed form', () => {
  // Round a kerb corner on the right at (40, 0), over to one on the left 80 m on and 9 m across, along the inner tangent of
  // the two circles of 0.30 m: the turn is the direction between the corners and the tangent's angle to it.
  const [on, across] = [80, 9];
  const apart = Math.hypot(on, across);
  const tangent = Math.sqrt(apart ** 2 - (2 * fromKerb) ** 2);
  const turn = Math.atan2(across, on) + Math.asin((2 * fromKerb) / apart);
  const sweep = (turn * 180) / Math.PI;
  const route = routeBuilder(fine)
    .start(onEquator([[0, fromKerb]])[0])
    .lineBy({ azimuth: 90, distance: 40 })
    .arc({ turn: 'right', radius: fromKerb, sweep })
    .lineBy({ azimuth: 90 + sweep, distance: tangent })
    .arc({ turn: 'left', radius: fromKerb, sweep })
    .lineBy({ azimuth: 90, distance: 30 })
    .build();
  expect(Math.abs(route.length - (40 + tangent + 2 * fromKerb * turn + 30))).toBeLessThan(1e-4);
  const end = onEquator([[40 + on + 30, -across - fromKerb]])[0];
  expect(inverse(pointAt(route, route.length).position, end).distance).toBeLessThan(1e-4);
});
