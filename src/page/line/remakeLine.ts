import {
  inverse,
  joinRoutes,
  type OffsetRouteOptions,
  offsetRoute,
  pointAt,
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
  /** Metres of the straight piece by which a second line is joined that begins elsewhere; left out where there is none. */
  readonly apart?: number;
}

/** Metres up to which two lines meet, as for `joinRoutes`. */
const MET = 0.01;

/**
 * The line that is made of a drawing as a whole.
 *
 * @throws {InputError} where the drawing is no line yet, or as the function that makes it
 */
export function remakeLine(drawing: Drawing, remaking: Remaking): Remade {
  const route = routeFromRecipe(drawing);
  if (remaking.call !== 'join') return remadeOf(remade(route, remaking));
  const second = routeFromRecipe(readDocument(remaking.text, remaking.name).drawing);
  const apart = inverse(pointAt(route, route.length).position, [second.lon[0], second.lat[0]]).distance;
  return apart > MET
    ? { ...remadeOf(joinRoutes(route, second, { gap: 'line' })), apart }
    : remadeOf(joinRoutes(route, second, { gap: 'refuse' }));
}

function remadeOf({ recipe, length }: Route): Remade {
  return { drawing: recipe, length };
}

function remade(route: Route, remaking: Exclude<Remaking, { call: 'join' }>): Route {
  switch (remaking.call) {
    case 'reverse':
      return reverseRoute(route);
    case 'offset': {
      const { call: _, ...options } = remaking;
      return offsetRoute(route, options);
    }
    case 'slice':
      return sliceRoute(route, remaking.from, remaking.to ?? route.length);
  }
}
