import {
  assess,
  combine,
  prepareRoute,
  type Recording,
  type Route,
  reverseRoute,
  routeBuilder,
  runFigures,
  sliceRoute,
  snap,
} from 'datumline';
import { describe, expect, test } from 'vitest';
import { besideRoute, steadyFixes } from '../support/besideRoute';

const laps = routeBuilder({ name: 'invented laps', lateral95: 0.4 })
  .start([2.1, 61.4])
  .laps(3, (lap) =>
    lap
      .section('there', { halfWidth: 6 })
      .lineBy({ azimuth: 90, distance: 200 })
      .section('round', { halfWidth: 6 })
      .arc({ turn: 'left', radius: 30, sweep: 180 })
      .lineBy({ azimuth: 270, distance: 200 })
      .arc({ turn: 'left', radius: 30, sweep: 180 }),
  )
  .build();
const one = (route: Route, offset: number): Recording =>
  besideRoute(
    route,
    `${offset}`,
    steadyFixes({ from: 0, to: route.length }, (s) => offset + Math.sin(s / 17)),
  );
const recordings = [2, -3, 5].map((offset) => one(laps, offset));

describe('a prepared route answers as the route does, to the last bit, whatever was asked of it before', () => {
  const prepared = prepareRoute(laps);

  test.each([0, 1, 2, 0])('snap, recording %i', (i) => {
    expect(snap(prepared, recordings[i])).toEqual(snap(laps, recordings[i]));
  });

  test('assess, twice, with laps named apart and with a stretch left out', () => {
    const options = [{}, { exclude: [{ from: 100, to: 150, reason: 'a gate' }] }, {}];
    for (const option of options) {
      expect(JSON.stringify(assess(prepared, recordings, option))).toBe(
        JSON.stringify(assess(laps, recordings, option)),
      );
    }
  });

  test('and what is made of it is another route', () => {
    const [sliced, reversed] = [sliceRoute(prepared, 0, 300), reverseRoute(prepared)];
    expect(assess(sliced, [one(sliced, 2)])).toEqual(assess(sliceRoute(laps, 0, 300), [one(sliced, 2)]));
    expect(reversed.length).toBeCloseTo(laps.length, 6);
    expect(combine([runFigures(assess(prepared, recordings))])).toEqual(combine([assess(laps, recordings)]));
  });

  test('it is the same route to all who look at it', () => {
    expect(prepared).toEqual(laps);
    expect(Object.keys(prepared)).toEqual(Object.keys(laps));
    expect(prepared.warnings).toEqual(laps.warnings);
    expect(structuredClone(prepared).lon).toEqual(laps.lon);
    expect(prepareRoute(prepared)).toBe(prepared);
  });
});

test('what a copy with other properties was made of is not taken for its own', () => {
  const prepared = prepareRoute(laps);
  assess(prepared, recordings);
  const copy = Object.defineProperties(
    {},
    {
      ...Object.getOwnPropertyDescriptors(prepared),
      sections: { value: [], enumerable: true },
    },
  ) as Route;
  expect(assess(copy, recordings).rows).toHaveLength(3);
});

test('what is no route is refused', () => {
  expect(() => prepareRoute({} as never)).toThrow(
    expect.objectContaining({
      reason: 'wrong-type',
      message: 'route must be a route, as routeFromRecipe makes one of a recipe, not an object',
    }),
  );
});
