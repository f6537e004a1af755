import type { Position } from 'geojson';

/** Options of a route as a whole. */
export interface RouteOptions {
  readonly name?: string;
  /** No edge of the built route is longer, in metres. @defaultValue 5 */
  readonly maxSpacing?: number;
}

/** Options of a section. */
export interface SectionOptions {
  /** Half the width of its corridor in metres. */
  readonly halfWidth?: number;
  /** What the sky and ground are like there, in the author's words. */
  readonly environment?: string;
}

/** One call of the builder, as plain JSON. */
export type RecipeStep =
  | { readonly call: 'start'; readonly position: Position }
  | { readonly call: 'lineTo'; readonly position: Position }
  | ({ readonly call: 'section'; readonly name: string } & SectionOptions);

/** How a route was authored: the calls in order. Plain JSON that builds the identical route again. */
export interface RouteRecipe {
  readonly version: 1;
  readonly options: RouteOptions;
  readonly steps: readonly RecipeStep[];
}
