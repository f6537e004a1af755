import {
  joinRoutes,
  type OffsetRouteOptions,
  offsetRoute,
  type Route,
  reverseRoute,
  routeFromRecipe,
  sliceRoute,
} from 'datumline';
import type { Drawing } from './Drawing';
import { readDocument } from './readDocument';

/** What can be done to a line as a whole. */
export type Remaking =
  | { readonly call: 'reverse' }
  | ({ readonly call: 'offset' } & OffsetRouteOptions)
  | { readonly call: 'slice'; readonly from: number /** Left out for its end. */; readonly to?: number }
  | {
      readonly call: 'join' /** The document that the second line is in. */;
      readonly text: string;
      readonly name: string;
    };

/** The line made of another, and how long it is. */
export interface Remade {
  readonly drawing: Drawing;
  readonly length: number;
}

/**
 * The line that is made of a drawing as a whole.
 *
 * @throws {InputError} where the drawing is no line yet, or as the function that makes it
 */
export function remakeLine(drawing: Drawing, remaking: Remaking): Remade {
  const { recipe, length } = remade(routeFromRecipe(drawing), remaking);
  return { drawing: recipe, length };
}

function remade(route: Route, remaking: Remaking): Route {
  switch (remaking.call) {
    case 'reverse':
      return reverseRoute(route);
    case 'offset': {
      const { call: _, ...options } = remaking;
      return offsetRoute(route, options);
    }
    case 'slice':
      return sliceRoute(route, remaking.from, remaking.to ?? route.length);
    case 'join':
      // a gap is for whoever draws to close: a leg that nobody went would be judged like the others
      return joinRoutes(route, routeFromRecipe(readDocument(remaking.text, remaking.name).drawing), { gap: 'refuse' });
  }
}
