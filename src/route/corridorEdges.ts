import type { Position } from 'geojson';
import { wrapLongitude } from '../geodesy';
import type { Route } from '../model';
import { offsetRoute } from './offsetRoute';
import { sliceRoute } from './sliceRoute';

/** A line with its name, longitudes within [-180, 180). */
export interface WrittenLine {
  readonly name?: string;
  readonly positions: readonly Position[];
}

/** The left and the right edge of the corridor of each section that states a half width. */
export function corridorEdges(route: Route): WrittenLine[] {
  return route.sections.flatMap(({ name, from, to, halfWidth, lap }) => {
    if (halfWidth === undefined || !(to > from)) return [];
    const section = sliceRoute(route, from, to);
    return (['left', 'right'] as const).map((side) => {
      const { lon, lat } = offsetRoute(section, { side, metres: halfWidth });
      return {
        name: `${name}${lap === undefined ? '' : `, lap ${lap}`}, ${side} edge`,
        positions: Array.from(lon, (value, i) => [wrapLongitude(value), lat[i]]),
      };
    });
  });
}
