import { offsetRoute, routeBuilder, routeFromRecipe } from 'datumline/route';
import { expect, test } from 'vitest';
import { athleticsOval } from '../published/athleticsOval';

const { straight, kerbRadius, fromKerb, lengths } = athleticsOval;

const kerb = routeBuilder({ maxSagitta: 0.0005 })
  .start([8, 47])
  .lineBy({ azimuth: 0, distance: straight })
  .arc({ turn: 'left', radius: kerbRadius, sweep: 180 })
  .lineBy({ azimuth: 180, distance: straight })
  .arc({ turn: 'left', radius: kerbRadius, sweep: 180 })
  .build();

test.each(lengths.map((length, i) => ({ lane: i + 1, length })))(
  'lane $lane of the athletics oval is $length m long',
  ({ lane, length }) => {
    // the printed centimetre is half a centimetre wide
    expect(Math.abs(offsetRoute(kerb, { side: 'right', metres: fromKerb(lane) }).length - length)).toBeLessThan(
      0.005 + 0.002,
    );
  },
);

test('a closed loop offset by d differs by 2πd', () => {
  for (const metres of [0.5, 5, 30]) {
    const { length } = offsetRoute(kerb, { side: 'left', metres });
    expect(Math.abs(length - (kerb.length - 2 * Math.PI * metres))).toBeLessThan(0.01);
  }
});

test('the recipe of an offset gives the identical route', () => {
  const offset = offsetRoute(kerb, { side: 'left', metres: 3 });
  expect(routeFromRecipe(JSON.parse(JSON.stringify(offset.recipe)))).toEqual(offset);
});
