import type { RecipeStep, RouteOptions, RouteRecipe } from 'datumline';
import fc from 'fast-check';

/** Positions within some hundred metres of a place of no note. */
export const position = fc
  .tuple(fc.integer({ min: -40000, max: 40000 }), fc.integer({ min: -20000, max: 20000 }))
  .map(([east, north]) => [5 + east * 1e-7, 60 + north * 1e-7]);

const side = fc.constantFrom('left' as const, 'right' as const);
const metres = fc.integer({ min: 1, max: 40 }).map((tenths) => tenths / 10);
const line = fc.uniqueArray(position, { minLength: 2, maxLength: 5, selector: (one) => one.join() });

const leg: fc.Arbitrary<RecipeStep> = fc.oneof(
  position.map((at) => ({ call: 'lineTo', position: at }) as const),
  fc.record({
    call: fc.constant('lineBy' as const),
    azimuth: fc.integer({ min: 0, max: 359 }),
    distance: fc.integer({ min: 1, max: 200 }),
  }),
  fc.record({ call: fc.constant('follow' as const), line, side, metres }),
  fc.record({ call: fc.constant('follow' as const), line, reverse: fc.boolean() }),
);

const turn: fc.Arbitrary<RecipeStep> = fc.oneof(
  fc.record({ call: fc.constant('arc' as const), turn: side, radius: metres, sweep: fc.integer({ min: 5, max: 200 }) }),
  fc.record({ call: fc.constant('uTurn' as const), side, width: metres }),
  fc.record({ call: fc.constant('moveOver' as const), side, metres, over: fc.integer({ min: 5, max: 30 }) }),
);

const saying: fc.Arbitrary<RecipeStep> = fc.oneof(
  fc.integer({ min: 1, max: 1e9 }).map((n) => ({ call: 'section', name: `section ${n}`, halfWidth: 3 }) as const),
  fc.integer({ min: 1, max: 1e9 }).map((n) => ({ call: 'mark', name: `mark ${n}`, time: 1.7e12 + n }) as const),
  position.map((near) => ({ call: 'mark', name: 'a mark', near }) as const),
  fc.record({ call: fc.constant('provenance' as const), lateral95: metres, source: fc.constant('plan') }),
);

const stretch = fc
  .tuple(leg, fc.array(fc.oneof({ weight: 3, arbitrary: leg }, turn, saying), { maxLength: 5 }))
  .map(([first, rest]) => [first, ...rest]);

/** Recipes of every call, most of which can be built. */
export const randomRecipe: fc.Arbitrary<RouteRecipe> = fc
  .tuple(
    fc.record({ maxSpacing: fc.constant(500), cornerRadius: fc.constantFrom(0, 2) }) as fc.Arbitrary<RouteOptions>,
    position,
    fc.array(
      fc.oneof(
        stretch,
        fc
          .tuple(fc.integer({ min: 1, max: 3 }), stretch)
          .map(([count, steps]): RecipeStep[] => [{ call: 'laps', count, steps }]),
        stretch.map((steps): RecipeStep[] => [{ call: 'outAndBack', steps }]),
        fc
          .tuple(side, metres, stretch)
          .map(([to, by, steps]): RecipeStep[] => [
            { call: 'outAndBack', steps, returnBeside: { side: to, metres: by } },
          ]),
      ),
      { minLength: 1, maxLength: 4 },
    ),
  )
  .map(([options, start, parts]) => ({
    version: 1,
    options,
    steps: [{ call: 'start', position: start }, ...parts.flat()],
  }));
