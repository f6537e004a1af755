import type { Position } from 'geojson';
import type { Route } from '../model';
import { sectionEdges } from './sectionEdges';

/** A line with its name, longitudes within [-180, 180). */
export interface WrittenLine {
  readonly name?: string;
  readonly positions: readonly Position[];
}

/**
 * The left and the right edge of the corridor of each section that states a half width, as far as it has one: all inside a loop
 * narrower than the corridor belongs to it, and is bounded by its other edge alone.
 */
export function corridorEdges(route: Route): WrittenLine[] {
  return route.sections.flatMap((section) => {
    const edges = sectionEdges(route, section);
    const { name, lap } = section;
    return (['left', 'right'] as const).flatMap((side) => {
      if (!edges || edges[side].metres < section.halfWidth!) return [];
      const { lon, lat } = edges[side];
      const positions = lon.map((value, i) => [value, lat[i]]);
      return [{ name: `${name}${lap === undefined ? '' : `, lap ${lap}`}, ${side} edge`, positions }];
    });
  });
}
