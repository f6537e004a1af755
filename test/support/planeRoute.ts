import type { Position } from 'geojson';
import { localPlane } from '../../src/geodesy/localPlane';
import { routeFromLine } from '../../src/route/routeFromLine';
import type { Route, RouteOptions } from '../../src/subpaths/route';

/** Metres east and north of an origin. */
export type PlanePoint = readonly [east: number, north: number];

/** A route through points of a plane that touches the ellipsoid at `origin`. */
export function planeRoute(origin: Position, points: readonly PlanePoint[], options?: RouteOptions): Route {
  const { toPosition } = localPlane(origin);
  return routeFromLine(
    points.map((point) => toPosition(point)),
    options,
  );
}

/** Points on a circle about `centre`, counter-clockwise for a positive sweep in degrees, about 2 m apart. */
export function circle(centre: PlanePoint, radius: number, from: number, sweep: number): PlanePoint[] {
  const pieces = Math.ceil((Math.abs(sweep) * Math.PI * radius) / 180 / 2);
  return Array.from({ length: pieces + 1 }, (_, k) => {
    const angle = ((from + (sweep * k) / pieces) * Math.PI) / 180;
    return [centre[0] + radius * Math.cos(angle), centre[1] + radius * Math.sin(angle)];
  });
}

/** 200 m up to a round lap of 503 m, run three times, then 450 m out and back on one line: 2 608 m. */
export function lapsThenOutAndBack(origin: Position, { laps = 3, beside = 0 } = {}): Route {
  return planeRoute(origin, [
    [-200, 0],
    ...circle([0, 80], 80, -90, 360 * laps),
    [450, 0],
    ...(beside > 0 ? [[450, beside] as const] : []),
    [0, beside],
  ]);
}

/** Two round lobes of 60 m radius that cross in the middle, run through twice. */
export function figureOfEight(origin: Position): Route {
  const once = [...circle([60, 0], 60, 180, 360), ...circle([-60, 0], 60, 0, -360)];
  return planeRoute(origin, [...once, ...once.slice(1)]);
}

/** Up one street, across, and down another 30 m beside it, three times over, start and finish the same place. */
export function parallelStreets(origin: Position): Route {
  const block: PlanePoint[] = [
    [0, 400],
    [30, 400],
    [30, 0],
    [0, 0],
  ];
  return planeRoute(origin, [[0, 0], ...block, ...block, ...block]);
}
