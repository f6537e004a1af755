import type { Position } from 'geojson';
import type { Route } from './Route';
import type { RecipeStep, RouteOptions, SectionOptions } from './RouteRecipe';
import { routeFromRecipe } from './routeFromRecipe';

/** Records calls; `build` turns them into a route. */
export interface RouteBuilder {
  start(position: Position): RouteBuilder;
  lineTo(position: Position): RouteBuilder;
  section(name: string, options?: SectionOptions): RouteBuilder;
  build(): Route;
}

/**
 * A builder for the reference line, leg by leg.
 *
 * @example
 * routeBuilder().start([5, 60]).section('quay', { halfWidth: 5 }).lineTo([5.01, 60]).build().length // → 558.00…
 *
 * @throws {InputError} from `build`, naming the call by its number
 */
export function routeBuilder(options: RouteOptions = {}): RouteBuilder {
  const steps: RecipeStep[] = [];
  const add = (step: RecipeStep) => {
    steps.push(step);
    return builder;
  };
  const builder: RouteBuilder = {
    start: (position) => add({ call: 'start', position }),
    lineTo: (position) => add({ call: 'lineTo', position }),
    section: (name, sectionOptions = {}) => add({ call: 'section', name, ...sectionOptions }),
    build: () => routeFromRecipe(structuredClone({ version: 1, options, steps })),
  };
  return builder;
}
