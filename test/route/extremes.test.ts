import { drawZone, InputError } from 'datumline';
import { type LegBuilder, routeBuilder, routeFromGeoJson, routeFromRecipe } from 'datumline/route';
import type { Polygon, Position } from 'geojson';
import { describe, expect, test } from 'vitest';

const start: Position = [5.1234567, 60.1234567];
const leg = { call: 'lineBy', azimuth: 0, distance: 100 } as const;
const recipeOf = (...steps: unknown[]) =>
  ({ version: 1, options: {}, steps: [{ call: 'start', position: start }, ...steps] }) as never;
const nested = (count: number, wrap: (inner: unknown) => unknown, core: unknown) => {
  let value = core;
  for (let k = 0; k < count; k++) value = wrap(value);
  return value;
};

/** What is thrown; it must be an InputError. */
const refusal = (call: () => unknown): InputError => {
  try {
    call();
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    return error as InputError;
  }
  throw new Error('it was taken');
};

describe('refused before the memory is filled or the stack ends', () => {
  test.each<[string, () => unknown, reason: string]>([
    [
      'laps nested 3 000 deep',
      () => routeFromRecipe(recipeOf(nested(3000, (x) => ({ call: 'laps', count: 1, steps: [x] }), leg))),
      'too-large',
    ],
    [
      'recipes in recipes 3 000 deep',
      () =>
        routeFromRecipe(
          nested(
            3000,
            (recipe) => ({ version: 1, options: {}, steps: [{ call: 'reverse', recipe }] }),
            recipeOf(leg),
          ) as never,
        ),
      'too-large',
    ],
    [
      'a polygon nested 100 000 deep',
      () =>
        routeFromRecipe(
          recipeOf(leg, {
            call: 'section',
            name: 'a',
            inside: { type: 'Polygon', coordinates: nested(100_000, (x) => [x], start) },
          }),
        ),
      'too-large',
    ],
    [
      'laps within laps of a builder',
      () =>
        routeBuilder()
          .start(start)
          .laps(1, function again(lap: LegBuilder) {
            lap.laps(1, again);
          }),
      'too-large',
    ],
    [
      'a thousand million laps',
      () => routeFromRecipe(recipeOf({ call: 'laps', count: 1e9, steps: [leg] })),
      'too-large',
    ],
    [
      'laps of laps',
      () =>
        routeFromRecipe(recipeOf({ call: 'laps', count: 1e5, steps: [{ call: 'laps', count: 1e5, steps: [leg] }] })),
      'too-large',
    ],
    [
      'millions of marks',
      () =>
        routeFromRecipe(
          recipeOf({
            call: 'laps',
            count: 9e6,
            steps: [{ call: 'mark', name: 'a' }, { call: 'mark', name: 'b' }, leg],
          }),
        ),
      'too-large',
    ],
    ['a step that is none', () => routeFromRecipe(recipeOf(leg, undefined)), 'wrong-type'],
    [
      'no function for laps',
      () =>
        routeBuilder()
          .start(start)
          .laps(2, 5 as never),
      'wrong-type',
    ],
    [
      'steps with a hole',
      () => routeFromRecipe(recipeOf(...Object.assign(Array(3), { 0: leg, 2: leg }))),
      'wrong-type',
    ],
    [
      'a line with a hole',
      () =>
        routeBuilder()
          .follow(Object.assign(Array(3), { 0: start, 2: start }))
          .build(),
      'wrong-type',
    ],
  ])('%s', (_, call, reason) => {
    expect(refusal(call).reason).toBe(reason);
  });
});

test('an area of 200 000 positions is taken', () => {
  const ring: Position[] = Array.from({ length: 200_000 }, (_, i) => [
    start[0] + 0.001 * Math.cos((2 * Math.PI * i) / 200_000),
    start[1] + 0.0005 * Math.sin((2 * Math.PI * i) / 200_000),
  ]);
  const inside: Polygon = { type: 'Polygon', coordinates: [[...ring, ring[0]]] };
  const { sections } = routeBuilder()
    .start(start)
    .lineBy({ azimuth: 0, distance: 100 })
    .section('a', { inside })
    .build();
  // half of the north-south axis of 0.001°
  expect(sections).toHaveLength(1);
  expect(sections[0].to).toBeCloseTo(0.0005 * 111_400, 0);
});

describe('keys that every object has', () => {
  const keys = ['__proto__', 'constructor', 'toString', '\ud800'];

  test.each(keys)('%j is refused in options and recipes', (key) => {
    const given = JSON.parse(`{${JSON.stringify(key)}: 5}`);
    expect(refusal(() => routeBuilder(given).start(start).lineBy({ azimuth: 0, distance: 1 }).build()).reason).toBe(
      'unknown-key',
    );
    const steps = `[{"call":"start","position":[5,60]},{"call":"lineTo","position":[5,60.1],${JSON.stringify(key)}:{}}]`;
    expect(refusal(() => routeFromRecipe({ version: 1, options: {}, steps: JSON.parse(steps) })).reason).toBe(
      'unknown-key',
    );
    const recipe = `{${JSON.stringify(key)}:{"version":1},"version":1,"options":{},"steps":[]}`;
    expect(refusal(() => routeFromRecipe(JSON.parse(recipe))).reason).toBe('unknown-key');
  });

  test.each(keys)('%j is nothing in the properties of a drawn leg', (key) => {
    const geometry = '{"type":"LineString","coordinates":[[5,60],[5,60.1]]}';
    const text = `{"type":"FeatureCollection","features":[{"type":"Feature","properties":{${JSON.stringify(key)}:{"section":"x","halfWidth":7}},"geometry":${geometry}}]}`;
    expect(routeFromGeoJson(JSON.parse(text)).sections).toEqual([]);
    expect(({} as Record<string, unknown>).halfWidth).toBeUndefined();
  });
});

test.each([5, null, 'x', () => Number.NaN, () => 2, () => -1, () => 'x'])('a zone drawn by %s is refused', (random) => {
  const { reason, argument } = refusal(() => drawZone(start, { radius: 100, random: random as never }));
  expect(argument).toMatch(/^options\.random/);
  expect(['wrong-type', 'not-finite', 'out-of-range']).toContain(reason);
});
