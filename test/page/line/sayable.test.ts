import type { RecipeStep, RouteOptions, RouteRecipe } from 'datumline';
import fc from 'fast-check';
import type { MultiPolygon, Polygon, Position } from 'geojson';
import { expect, test } from 'vitest';
import { documentSchema } from '../../../schemas.config';
import { addPoint } from '../../../src/page/line/addPoint';
import { makeDesk } from '../../../src/page/line/Desk';
import { type Drawing, NOTHING, type StepPath } from '../../../src/page/line/Drawing';
import { makeLineStore } from '../../../src/page/line/LineStore';
import { newStep, newSteps } from '../../../src/page/line/newStep';
import { areaIn, areaRows, positionsIn, rowsOf } from '../../../src/page/line/positionRows';
import { type Remaking, remakeLine } from '../../../src/page/line/remakeLine';
import { spliceSteps } from '../../../src/page/line/spliceSteps';
import { fieldOf, stepFields, withField } from '../../../src/page/line/stepFields';
import { stepAt } from '../../../src/page/line/stepsIn';
import { optionFields } from '../../../src/page/line/WholeLine';
import { wrapLegs } from '../../../src/page/line/wrapLegs';

type Schema = ReturnType<typeof documentSchema>;
type Call = RecipeStep['call'];

const definitions = documentSchema('recipe').definitions as Record<string, Schema>;
const schemas = new Map<Call, Schema>(
  (definitions.RecipeStep.allOf as { then: Schema }[]).map(({ then }) => [
    (then.properties!.call as Schema).const as Call,
    then,
  ]),
);
const derived = ['offset', 'slice', 'reverse', 'join'] as const;

const word = fc.stringMatching(/^[a-zäß][a-z “1-9]{0,6}[a-z]$/);
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true }).map((value) => value || 0);
const position = fc.tuple(number(-180, 180), number(-90, 90));
const ring = fc.array(position, { minLength: 3, maxLength: 5 }).map((corners) => [...corners, corners[0]]);
const rings = fc.array(ring, { minLength: 1, maxLength: 3 });

/** What the schema alone would not make rightly. */
const special: Record<string, fc.Arbitrary<unknown>> = {
  Position: position,
  Polygon: rings.map((coordinates) => ({ type: 'Polygon', coordinates })),
  // one polygon alone is told as such
  MultiPolygon: fc
    .array(rings, { minLength: 2, maxLength: 3 })
    .map((coordinates) => ({ type: 'MultiPolygon', coordinates })),
};

/** Any value that a schema of the recipe allows; of what holds other steps, some. */
function allowedBy(schema: Schema): fc.Arbitrary<unknown> {
  const { $ref, anyOf, type, enum: words, exclusiveMinimum: above } = schema;
  if ($ref !== undefined) {
    const name = $ref.slice('#/definitions/'.length);
    return special[name] ?? allowedBy(definitions[name]);
  }
  if (anyOf !== undefined) return fc.oneof(...(anyOf as Schema[]).map(allowedBy));
  if (schema.const !== undefined) return fc.constant(schema.const);
  if (words !== undefined) return fc.constantFrom(...(words as unknown[]));
  if (type === 'string') return word;
  // as against being left out, which means the same as false
  if (type === 'boolean') return fc.constant(true);
  if (type === 'integer') return fc.integer({ min: schema.minimum, max: 9 });
  if (type === 'number') return number(above === undefined ? (schema.minimum ?? -1e6) : 1e-3, 1e6);
  if (type === 'array')
    return fc.array(allowedBy(schema.items as Schema), { minLength: schema.minItems ?? 1, maxLength: 4 });
  return objectOf(schema);
}

function objectOf({ properties = {}, required = [] }: Schema, ...without: string[]): fc.Arbitrary<object> {
  const keys = Object.keys(properties).filter((key) => !without.includes(key));
  return fc.record(Object.fromEntries(keys.map((key) => [key, allowedBy(properties[key] as Schema)])), {
    requiredKeys: keys.filter((key) => required.includes(key)),
  });
}

/**
 * Any step that draws or names, what is in laps and ways out and back included. Not made: what a draft remembers, which no hand
 * states; heights, of which a line has none; a side without its distance, which says nothing.
 */
const { step: anyStep } = fc.letrec<{ step: RecipeStep }>((tie) => {
  const plain = [...schemas].flatMap(([call, schema]) => {
    if (call === 'start' || derived.includes(call as never)) return [];
    const own = objectOf(schema, 'drafted', 'steps') as fc.Arbitrary<RecipeStep>;
    if (call === 'laps' || call === 'outAndBack') {
      const steps = fc.array(tie('step'), { minLength: 1, maxLength: 3 });
      return [fc.tuple(own, steps).map(([one, inner]) => ({ ...one, steps: inner }) as RecipeStep)];
    }
    return [
      own.map((one): RecipeStep => {
        if (one.call === 'mark' && one.time !== undefined) return { ...one, time: Math.round(one.time) };
        if (one.call !== 'follow' || (one.metres && one.side)) return one;
        const { metres: _, side: __, ...rest } = one;
        return rest;
      }),
    ];
  });
  return { step: fc.oneof({ depthSize: 'small', withCrossShrink: true }, ...plain) };
});

const anyRecipe = fc
  .record({
    options: allowedBy({ $ref: '#/definitions/RouteOptions' }) as fc.Arbitrary<RouteOptions>,
    start: fc.option(objectOf(schemas.get('start')!) as fc.Arbitrary<RecipeStep>, { nil: undefined }),
    steps: fc.array(anyStep, { minLength: 1, maxLength: 6 }),
  })
  .map(
    ({ options, start, steps }): RouteRecipe => ({
      version: 1,
      options,
      steps: start === undefined ? steps : [start, ...steps],
    }),
  );

const desk = makeDesk({
  store: makeLineStore(),
  recordings: { value: [] } as never,
  surroundings: { value: null } as never,
  openSurroundings: async () => {},
  say: () => {},
});

/** What a field takes from a hand that types a value into it. */
function typed(kind: string, value: unknown): unknown {
  if (kind === 'positions') return positionsIn(rowsOf(value as Position[]));
  if (kind === 'area') return areaIn(areaRows(value as Polygon | MultiPolygon));
  if (kind === 'number') return Number(String(value));
  return value;
}

/** The step at a path given all that another says by the fields of the list. */
function filledIn(drawing: Drawing, path: StepPath, wanted: RecipeStep): Drawing {
  let step = stepAt(drawing, path)!;
  for (const { key, kind, choices } of stepFields(step)) {
    const value = fieldOf(wanted, key);
    if (value === fieldOf(step, key)) continue;
    if (choices) expect(choices.map(([one]) => one)).toContain(value);
    step = withField(step, key, value === undefined ? undefined : typed(kind, value));
  }
  return spliceSteps(drawing, path, 1, step);
}

/** Steps said one after the other by what the list offers. */
function said(drawing: Drawing, steps: readonly RecipeStep[], first: StepPath): Drawing {
  return steps.reduce((before, step, i) => {
    const path = [...first.slice(0, -1), first[first.length - 1] + i];
    if (step.call === 'start') return filledIn(addPoint(before, step.position, []).drawing, path, step);
    if (step.call !== 'laps' && step.call !== 'outAndBack') {
      expect(newSteps.map(({ call }) => call)).toContain(step.call);
      return filledIn(spliceSteps(before, path, 0, newStep(step.call, desk)), path, step);
    }
    // what is in them first, as rows of their own
    const inner = said(before, step.steps, path);
    const around = step.call === 'laps' ? ({ call: 'laps', count: 2 } as const) : ({ call: 'outAndBack' } as const);
    return filledIn(wrapLegs(inner, path, step.steps.length, around), path, step);
  }, drawing);
}

test('every recipe that the schema allows can be said by the fields and buttons of the page', () => {
  const calls = new Set<string>();
  fc.assert(
    fc.property(anyRecipe, (recipe) => {
      JSON.stringify(recipe, (key, value) => (key === 'call' ? calls.add(value) && value : value));
      const { steps, ...rest } = said(NOTHING, recipe.steps, [0]);
      expect(steps).toEqual(recipe.steps);
      expect(Object.keys(recipe.options).filter((key) => !(key in optionFields) && key !== 'name')).toEqual([]);
      expect(rest).toEqual({ version: 1, options: {} });
    }),
    { numRuns: 300 },
  );
  expect([...calls].sort()).toEqual([...schemas.keys()].filter((call) => !derived.includes(call as never)).sort());
});

test.each(derived)(
  '%s: the line is made of others by a button, and all that it says by the fields of the list',
  (call) => {
    const straight = (from: number, to: number): RouteRecipe => ({
      ...{ version: 1, options: {} },
      steps: [
        { call: 'start', position: [from, 60] },
        { call: 'lineTo', position: [to, 60] },
      ],
    });
    const [drawing, second] = [straight(5, 5.001), straight(5.002, 5.003)];
    const remaking = {
      offset: { call: 'offset', side: 'left', metres: 2 },
      slice: { call: 'slice', from: 1, to: 2 },
      reverse: { call: 'reverse' },
      join: { call: 'join', text: JSON.stringify(second), name: 'second.json' },
    }[call] as Remaking;
    const others = call === 'join' ? { recipes: [drawing, second] } : { recipe: drawing };
    fc.assert(
      fc.property(objectOf(schemas.get(call)!, 'recipe', 'recipes'), (own) => {
        const made = remakeLine(drawing, remaking).drawing;
        const wanted = { ...own, ...others } as unknown as RecipeStep;
        expect(filledIn(made, [0], wanted)).toEqual({ version: 1, options: {}, steps: [wanted] });
      }),
      { numRuns: 30 },
    );
  },
);
