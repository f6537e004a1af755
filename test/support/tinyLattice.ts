import type { Position } from 'geojson';
import type { Recording, Route } from '../../src/model';
import { Bins } from '../../src/snap/Bins';
import { FixTrack } from '../../src/snap/FixTrack';
import { localPlane } from '../../src/subpaths/geodesy';
import type { RouteOptions } from '../../src/subpaths/route';
import { type PlanePoint, planeRoute } from './planeRoute';

const origin: Position = [5, 52];

/** A fix of a tiny recording: where, in metres east and north, when, in seconds, and whether it was interrupted before it. */
export interface TinyFix {
  readonly at: PlanePoint;
  readonly seconds: number;
  readonly gap?: boolean;
}

/** A route through points of a plane, its bins, and a recording made fix by fix. */
export function tinyLattice(points: readonly PlanePoint[], fixes: readonly TinyFix[], options?: RouteOptions) {
  const { toPosition } = localPlane(origin);
  const places = fixes.map(({ at }) => toPosition(at));
  const recording: Recording = {
    name: 'tiny',
    lon: Float64Array.from(places, ([lon]) => lon),
    lat: Float64Array.from(places, ([, lat]) => lat),
    time: Float64Array.from(fixes, ({ seconds }) => 1000 * seconds),
    gapBefore: Uint8Array.from(fixes, ({ gap }) => (gap ? 1 : 0)),
    issues: [],
    source: { format: 'gpx' },
    attributes: {},
  };
  const route: Route = planeRoute(origin, points, options);
  return { route, bins: new Bins(route), track: new FixTrack(recording) };
}
