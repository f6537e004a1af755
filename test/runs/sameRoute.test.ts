import { assess, combine, direct, type Route, routeBuilder, routeFromLine, routeFromRecipe } from 'datumline';
import { expect, test } from 'vitest';
import { sameRoute } from '../../src/runs/sameRoute';
import { recordingOf } from '../assess/recordingOf';

const start: [number, number] = [7, 44];
const end = direct(start, 90, 600).position;
const build = (halfWidth = 5, to = end) =>
  routeBuilder({ name: 'street', lateral95: 0.5 }).start(start).section('all', { halfWidth }).lineTo(to).build();
const recording = recordingOf(
  Array.from({ length: 201 }, (_, i) => direct(start, 90, 3 * i).position as [number, number]),
);
const over = (route: Route) => assess(route, [recording]);

/** The last bits of a line as an engine with other sines and cosines would have them. */
const elsewhere = (route: Route): Route => {
  const moved = (column: Float64Array) => column.map((value, i) => value * (1 + (i % 2 === 0 ? 4e-16 : -4e-16)));
  return Object.defineProperties({} as Route, {
    ...Object.getOwnPropertyDescriptors(route),
    ...Object.fromEntries(
      (['lon', 'lat', 'alongTrack'] as const).map((key) => [key, { value: moved(route[key]), enumerable: true }]),
    ),
  });
};

test('one recipe is one route, whatever the engine’s last bits and the order of its keys', () => {
  const route = build();
  expect(elsewhere(route).lon).not.toEqual(route.lon);
  const turned = (value: unknown): unknown =>
    Array.isArray(value)
      ? value.map(turned)
      : typeof value === 'object' && value !== null
        ? Object.fromEntries(
            Object.entries(value)
              .reverse()
              .map(([key, member]) => [key, turned(member)]),
          )
        : value;
  const [here, there, read] = [route, elsewhere(route), routeFromRecipe(turned(route.recipe) as never)].map(over);
  const hash = here.method.inputs[0].hash;
  expect([there.method.inputs[0].hash, read.method.inputs[0].hash]).toEqual([hash, hash]);
  expect(combine([here, there, read]).runs).toHaveLength(3);
});

test('recipes that draw the same line are one route, others are not', () => {
  const [here, drawn] = [build(), elsewhere(build())].map(over);
  const asRecipe = { ...drawn, method: { ...drawn.method, inputs: [{ name: 'route', hash: 'of another recipe' }] } };
  expect(sameRoute(here, asRecipe)).toBe(true);
  const others = [build(6), build(5, direct(start, 90, 600.01).position), build(5, direct(start, 90.01, 600).position)];
  for (const other of [...others, routeFromLine([start, end])]) expect(sameRoute(here, over(other))).toBe(false);
  expect(() => combine([here, over(build(6))])).toThrow('the route of the first assessment');
});
