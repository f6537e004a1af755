import type { Feature, FeatureCollection, Position } from 'geojson';
import { cutAtAntimeridian } from '../geodesy';
import { checkRoute, type Route, type RouteRecipe, sectionFinder } from '../model';
import { corridorEdges } from './corridorEdges';
import { pointAt } from './pointAt';

/** A route as {@link routeToGeoJson} gives it: GeoJSON with two members of its own. */
export interface RouteCollection extends FeatureCollection {
  /** What the route is called. */
  readonly name?: string;
  /** What the route was authored from. */
  readonly recipe: RouteRecipe;
}

/** Closer than this, in metres, two ends are one. */
const SAME_PLACE = 1e-6;

/** Member of `properties` that marks what only shows the corridor. */
export const EDGE = { datumline: 'edge' } as const;

/**
 * The route as a GeoJSON FeatureCollection (RFC 7946): for a map editor its lines, one for each stretch between the ends of
 * sections and sources, with the properties that {@link routeFromGeoJson} reads; its marks as points; the edges of its corridor,
 * marked as such and passed over when read; no edge inside a loop that the corridor fills. The member `recipe` holds what it was authored from.
 *
 * Read back it is the same route: laps, sections in one another, arcs and all. Once the drawing was changed by more than 5 cm, or
 * a property of it, or where an editor dropped `recipe`, it is read as the drawing that it is then: its lines, each in the
 * innermost of its sections, and marks at the first pass.
 *
 * @example
 * const route = routeBuilder({ lateral95: 0.5 }).start([5, 60]).section('quay', { halfWidth: 5 }).lineTo([5.01, 60]).build();
 * const collection = routeToGeoJson(route);
 * collection.features[0].properties // → { section: 'quay', halfWidth: 5, lateral95: 0.5 }
 * routeFromGeoJson(collection).sections // → [{ name: 'quay', from: 0, to: 558.00…, halfWidth: 5 }]
 *
 * @remarks Time grows with the vertices; of hundreds of thousands, with what the engine takes to collect garbage, up to n^1.5
 * (docs/growth.md).
 * @throws {InputError} something that is no route
 * @see RFC 7946, The GeoJSON Format, 2016, sections 3.1.9 and 6.1
 */
export function routeToGeoJson(route: Route): RouteCollection {
  checkRoute(route);
  const marks = route.marks.map(({ name, alongTrack, time }): Feature => {
    const [lon, lat] = pointAt(route, alongTrack).position;
    const properties = time === undefined ? { name } : { name, time };
    return { type: 'Feature', properties, geometry: { type: 'Point', coordinates: [lon, lat] } };
  });
  const edges = corridorEdges(route).map(({ name, positions }) => lineFeature(positions, { name, ...EDGE }));
  return {
    type: 'FeatureCollection',
    ...(route.name === undefined ? {} : { name: route.name }),
    recipe: route.recipe,
    features: [...legs(route), ...marks, ...edges],
  };
}

function legs(route: Route): Feature[] {
  const { lon, lat, alongTrack, length, sections, provenance, lateral95 } = route;
  const stated: number[] = [];
  for (let i = 1; i < lon.length; i++) if (!Object.is(lateral95[i], lateral95[i - 1])) stated.push(alongTrack[i]);
  const ends = [0, length, ...stated, ...[...sections, ...provenance].flatMap(({ from, to }) => [from, to])]
    .sort((a, b) => a - b)
    .filter((end, i, all) => i === 0 || end - all[i - 1] > SAME_PLACE);
  const sectionsAt = sectionFinder(route);
  let vertex = 0;
  return ends.slice(1).map((to, i) => {
    const from = ends[i];
    const positions: Position[] = [pointAt(route, from).position];
    for (; vertex < lon.length && alongTrack[vertex] < to - SAME_PLACE; vertex++) {
      if (alongTrack[vertex] > from + SAME_PLACE) positions.push([lon[vertex], lat[vertex]]);
    }
    positions.push(pointAt(route, to).position);
    const middle = (from + to) / 2;
    const { name: section, halfWidth, environment } = sectionsAt(middle)[0] ?? {};
    const {
      from: _,
      to: __,
      ...source
    } = provenance.filter((one) => one.from <= middle && middle < one.to).at(-1) ?? {};
    const known = lateral95[pointAt(route, middle).segment];
    const quality = Number.isNaN(known) ? {} : { lateral95: known };
    const given = Object.entries({ section, halfWidth, environment, ...source, ...quality });
    return lineFeature(positions, Object.fromEntries(given.filter(([, value]) => value !== undefined)));
  });
}

function lineFeature(positions: readonly Position[], properties: Record<string, unknown>): Feature {
  const parts = cutAtAntimeridian(positions).map((part) => part.positions);
  return {
    type: 'Feature',
    properties,
    geometry:
      parts.length === 1
        ? { type: 'LineString', coordinates: parts[0] }
        : { type: 'MultiLineString', coordinates: parts },
  };
}
