import {
  joinRoutes,
  offsetRoute,
  type RecipeStep,
  type Route,
  type RouteBuilder,
  type RouteOptions,
  type RouteRecipe,
  reverseRoute,
  routeBuilder,
  routeFromRecipe,
  sliceRoute,
} from 'datumline/route';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { schemaJudge } from '../support/schemaJudge';
import { spoil, spoilings } from '../support/spoilings';

const faultsOf = schemaJudge('recipe');
const square = (west: number, south: number): [number, number][] => [
  [west, south],
  [west + 0.001, south],
  [west + 0.001, south + 0.001],
  [west, south + 0.001],
  [west, south],
];

/** Every call of the builder, with everything it takes. */
const full = routeBuilder({ name: 'invented', maxSpacing: 2000, maxSagitta: 0.1, cornerRadius: 2, halfWidth: 5 })
  .provenance({ lateral95: 0.5, source: 'plan', date: '2024-06', licence: 'own', frame: 'ETRS89', epoch: 2024.5 })
  .start([5, 60, 12], { azimuth: 90 })
  .section('bend', { halfWidth: 3, environment: 'trees' })
  .arc({ turn: 'left', radius: 30, sweep: 90 })
  .lineBy({ azimuth: 20, distance: 80 })
  .endSection()
  .lineTo([5.003, 60.001], { cornerRadius: 4 })
  .mark('gate', { time: 1.7e12 })
  .uTurn({ side: 'right', width: 12 })
  .moveOver({ side: 'left', metres: 3, over: 40 })
  .follow(
    [
      [5.004, 60.001],
      [5.004, 60.003],
      [5.006, 60.003],
    ],
    { side: 'right', metres: 2, from: 10, to: 200, reverse: true },
  )
  .laps(2, (lap) => lap.section('lap').lineTo([5.005, 60.002]).lineTo([5.006, 60.003]))
  .outAndBack((out) => out.lineBy({ azimuth: 0, distance: 60 }), { returnBeside: { side: 'left', metres: 4 } })
  .mark('bridge', { near: [5.004, 60.002] })
  .section('first metres', { from: 0, to: 50 })
  .section('park', { inside: { type: 'Polygon', coordinates: [square(5.003, 60.001)] } })
  .section('parks', {
    inside: { type: 'MultiPolygon', coordinates: [[square(5.003, 60.001)], [square(5.005, 60.002)]] },
  })
  .build();
const short = routeBuilder({ maxSpacing: 2000 }).start([5, 60]).lineTo([5, 60.001]).build();
const routes: readonly Route[] = [
  full,
  sliceRoute(full, 20, 150),
  joinRoutes(reverseRoute(short), offsetRoute(short, { side: 'left', metres: 2, join: 'mitre' }), { gap: 'line' }),
];
// biome-ignore lint/suspicious/noExplicitAny: a document to be spoilt
type Document = any;
const documentOf = (route: Route): Document => JSON.parse(JSON.stringify(route.recipe));
const refusal = (make: () => unknown) => {
  try {
    make();
  } catch (error) {
    const { name, reason, argument, message } = error as Record<string, unknown>;
    return { name, reason, argument, message };
  }
  return undefined;
};

test('what every call writes is what the schema says, and gives the same route', () => {
  const calls = new Set(JSON.stringify(routes.map(documentOf)).match(/"call":"\w+"/g));
  expect(calls.size).toBe(17);
  for (const route of routes) {
    expect(faultsOf(route.recipe)).toEqual([]);
    expect(routeFromRecipe(documentOf(route))).toEqual(route);
  }
});

describe('a fault is refused alike whether it comes by the builder or in a recipe', () => {
  const start: RecipeStep = { call: 'start', position: [5, 60] };
  const at = (b: RouteBuilder) => b.start([5, 60]);
  type Alike = [string, RouteOptions, (b: RouteBuilder) => unknown, object[], reason: string, argument: string];
  test.each<Alike>([
    ['spacing', { maxSpacing: -1 }, at, [start], 'out-of-range', 'options.maxSpacing'],
    ['an option of nothing', { name: null as never }, at, [start], 'wrong-type', 'options.name'],
    ['an unknown option', { colour: 1 } as never, at, [start], 'unknown-key', 'options.colour'],
    ['a point alone', {}, at, [start], 'too-few', 'steps'],
    [
      'a latitude',
      {},
      (b) => b.start([5, 95]),
      [{ call: 'start', position: [5, 95] }],
      'swapped',
      'steps[0] start position latitude',
    ],
    [
      'a height in words',
      {},
      (b) => b.start([5, 60, 'high' as never]),
      [{ call: 'start', position: [5, 60, 'high'] }],
      'wrong-type',
      'steps[0] start position height',
    ],
    [
      'a missing member',
      {},
      (b) => at(b).lineBy({ azimuth: 5 } as never),
      [start, { call: 'lineBy', azimuth: 5 }],
      'missing',
      'steps[1] lineBy distance',
    ],
    [
      'an unknown member',
      {},
      (b) => at(b).uTurn({ side: 'left', width: 5, over: 3 } as never),
      [start, { call: 'uTurn', side: 'left', width: 5, over: 3 }],
      'unknown-key',
      'steps[1] uTurn over',
    ],
    [
      'a prototype',
      {},
      (b) => at(b).lineBy(JSON.parse('{"azimuth":5,"distance":9,"__proto__":{"metres":1}}')),
      [start, JSON.parse('{"call":"lineBy","azimuth":5,"distance":9,"__proto__":{"metres":1}}')],
      'unknown-key',
      'steps[1] lineBy __proto__',
    ],
    [
      'a text for a number',
      {},
      (b) => at(b).lineBy({ azimuth: 5, distance: '100' as never }),
      [start, { call: 'lineBy', azimuth: 5, distance: '100' }],
      'wrong-type',
      'steps[1] lineBy distance',
    ],
    [
      'infinity',
      {},
      (b) => at(b).lineBy({ azimuth: 5, distance: Infinity }),
      [start, { call: 'lineBy', azimuth: 5, distance: Infinity }],
      'not-finite',
      'steps[1] lineBy distance',
    ],
    [
      'a side in a lap',
      {},
      (b) => at(b).laps(2, (lap) => lap.arc({ turn: 'up' as never, radius: 5, sweep: 90 })),
      [start, { call: 'laps', count: 2, steps: [{ call: 'arc', turn: 'up', radius: 5, sweep: 90 }] }],
      'wrong-type',
      'steps[1].steps[0] arc turn',
    ],
    [
      'laps without number',
      {},
      (b) => at(b).laps(1e12, (lap) => lap.lineTo([5, 60.1])),
      [start, { call: 'laps', count: 1e12, steps: [{ call: 'lineTo', position: [5, 60.1] }] }],
      'too-large',
      'steps[1] laps count',
    ],
    [
      'a hole in a line',
      {},
      (b) => b.follow([[5, 60], undefined, [5, 61]] as never),
      [{ call: 'follow', line: [[5, 60], undefined, [5, 61]] }],
      'wrong-type',
      'steps[0] follow line[1]',
    ],
    [
      'an area without coordinates',
      {},
      (b) => at(b).section('a', { inside: { type: 'Polygon' } as never }),
      [start, { call: 'section', name: 'a', inside: { type: 'Polygon' } }],
      'wrong-type',
      'steps[1] section inside',
    ],
    ...(
      [
        ['an area without a ring', [], 'too-few', 'steps[1] section inside'],
        ['a ring left open', [[...square(5, 60).slice(0, 4), [5, 61]]], 'misplaced', 'steps[1] section inside ring 0'],
        // straight in longitude and latitude, it would be a band of no width
        [
          'a ring round the pole',
          [
            [
              [0, 80],
              [120, 80],
              [240, 80],
              [0, 80],
            ],
          ],
          'misplaced',
          'steps[1] section inside ring 0',
        ],
      ] as const
    ).map(([title, coordinates, reason, argument]): Alike => {
      const inside = { type: 'Polygon', coordinates } as never;
      return [
        title,
        {},
        (b) => at(b).section('a', { inside }),
        [start, { call: 'section', name: 'a', inside }],
        reason,
        argument,
      ];
    }),
    [
      'half a pair',
      {},
      (b) => at(b).section('a', { to: 5 }),
      [start, { call: 'section', name: 'a', to: 5 }],
      'missing',
      'steps[1] section from',
    ],
  ])('%s', (_, options, author, steps, reason, argument) => {
    const built = refusal(() => {
      const builder = routeBuilder(options);
      author(builder);
      builder.build();
    });
    const read = refusal(() => routeFromRecipe({ version: 1, options, steps } as Document));
    expect(read).toMatchObject({ name: 'InputError', reason, argument });
    expect(built).toEqual(read);
  });
});

describe('what only a document can get wrong', () => {
  const derived = () => documentOf(routes[1]);
  test.each<[string, (document: Document) => unknown, string, string]>([
    ['another version', (r) => (r.version = 2), 'unreadable', 'recipe.version'],
    ['no options', (r) => delete r.options, 'missing', 'recipe.options'],
    ['options of null', (r) => (r.options = null), 'wrong-type', 'options'],
    ['an unknown key', (r) => (r.colour = 'red'), 'unknown-key', 'recipe.colour'],
    ['a key of half a character', (r) => (r.options['\ud800'] = 1), 'unknown-key', 'options.\ud800'],
    [
      'a prototype',
      (r) => Object.assign(r, JSON.parse('{"options":{"__proto__":{"halfWidth":1}}}')),
      'unknown-key',
      'options.__proto__',
    ],
    ['no steps', (r) => delete r.steps, 'missing', 'recipe.steps'],
    ['steps of words', (r) => (r.steps = 'start'), 'wrong-type', 'steps'],
    ['a step of undefined', (r) => (r.steps = [undefined]), 'wrong-type', 'steps[0]'],
    ['a step of null', (r) => (r.steps[3] = null), 'wrong-type', 'steps[3]'],
    ['a step left empty', (r) => delete r.steps[3], 'wrong-type', 'steps[3]'],
    ['a step without call', (r) => delete r.steps[3].call, 'missing', 'steps[3] call'],
    ['an unknown call', (r) => (r.steps[3].call = 'jump'), 'unknown-key', 'steps[3] call'],
    ['an inherited call', (r) => (r.steps[3].call = 'toString'), 'unknown-key', 'steps[3] call'],
    ['a call in a list', (r) => (r.steps[3].call = ['arc']), 'wrong-type', 'steps[3] call'],
    ['a route of others among legs', (r) => r.steps.push(derived().steps[0]), 'misplaced', 'steps[17] slice'],
  ])('%s', (_, spoil, reason, argument) => {
    const document = documentOf(full);
    spoil(document);
    expect(refusal(() => routeFromRecipe(document))).toMatchObject({ name: 'InputError', reason, argument });
  });

  test.each<[string, (step: Document, document: Document) => unknown, string, string]>([
    ['options of its own', (_, r) => (r.options.halfWidth = 3), 'misplaced', 'options.halfWidth'],
    ['no recipe', (s) => delete s.recipe, 'missing', 'steps[0] slice recipe'],
    ['a recipe of null', (s) => (s.recipe = null), 'wrong-type', 'steps[0] slice recipe'],
    ['another version', (s) => (s.recipe.version = 3), 'unreadable', 'steps[0] slice recipe.version'],
    [
      'a bad option within',
      (s) => (s.recipe.options.halfWidth = 0),
      'out-of-range',
      'steps[0] slice recipe.options.halfWidth',
    ],
    [
      'a bad step within',
      (s) => (s.recipe.steps[3].radius = 0),
      'out-of-range',
      'steps[0] slice recipe.steps[3] arc radius',
    ],
    ['a place off the end', (s) => (s.to = 1e6), 'outside', 'steps[0] slice to'],
    ['a place that is none', (s) => (s.from = 'gate'), 'wrong-type', 'steps[0] slice from'],
    [
      'a bad side',
      (s) => Object.assign(s, { call: 'offset', side: 'up', metres: 2, from: undefined, to: undefined }),
      'wrong-type',
      'steps[0] offset side',
    ],
    [
      'one recipe to join',
      (s) => Object.assign(s, { call: 'join', recipes: [s.recipe], recipe: undefined, from: undefined, to: undefined }),
      'wrong-type',
      'steps[0] join recipes',
    ],
  ])('a route of others: %s', (_, spoil, reason, argument) => {
    const document = derived();
    spoil(document.steps[0], document);
    expect(refusal(() => routeFromRecipe(document))).toMatchObject({ name: 'InputError', reason, argument });
  });

  const reversed = (recipe: RouteRecipe): RouteRecipe => ({
    version: 1,
    options: {},
    steps: [{ call: 'reverse', recipe }],
  });
  const lapped = (recipe: RouteRecipe): RouteRecipe => {
    const [first, ...steps] = recipe.steps;
    return { ...recipe, steps: [first, { call: 'laps', count: 1, steps }] };
  };
  test.each([
    ['reversed', reversed],
    ['lapped', lapped],
  ])('a recipe %s 300 times is read, 3000 times or in itself is too large', (_, wrap) => {
    const wrapped = (times: number) => Array.from({ length: times }).reduce<RouteRecipe>(wrap, short.recipe);
    expect(routeFromRecipe(wrapped(300)).length).toBeCloseTo(short.length, 6);
    const tooLarge = { name: 'InputError', reason: 'too-large', argument: 'recipe' };
    expect(refusal(() => routeFromRecipe(wrapped(3000)))).toMatchObject(tooLarge);
    const endless: Document = wrap(documentOf(short));
    endless.steps[0] = { call: 'reverse', recipe: endless };
    expect(refusal(() => routeFromRecipe(endless))).toMatchObject(tooLarge);
  });
});

test('a spoilt recipe gives an InputError, and what the schema refuses is refused, and what has the wrong shape the reverse', () => {
  const seen = { refused: 0, taken: 0 };
  fc.assert(
    fc.property(fc.constantFrom(...routes), spoilings, (route, faults) => {
      const document = spoil(documentOf(route), faults) as Document;
      const asJson = JSON.stringify(document);
      const found = asJson === undefined ? ['# nothing'] : faultsOf(document);
      const error = refusal(() => routeFromRecipe(document));
      if (error === undefined) {
        seen.taken++;
        expect(found, asJson).toEqual([]);
        return;
      }
      seen.refused++;
      expect(error.name, `${error.message} ${asJson}`).toBe('InputError');
      // What one member asks of another is beyond a schema.
      const mutual = /given too|given with metres/.test(String(error.message));
      if (!mutual && /wrong-type|not-finite|unknown-key|missing|unreadable/.test(String(error.reason))) {
        expect(found, `${error.message} ${asJson}`).not.toEqual([]);
      }
    }),
    { seed: 7, numRuns: 250 },
  );
  expect(seen.refused).toBeGreaterThan(150);
  expect(seen.taken).toBeGreaterThan(10);
});
