import type { Point, RoutePlane } from './routePlane';

/** Places a map knows along the route at most: a place every pixel or two. */
const SPOTS = 1500;

/** Where evenly spaced places of the route lie in a map, in pixels. */
export function routeSpots(plane: RoutePlane, length: number, toPixels: (point: Point) => Point) {
  const count = Math.max(2, Math.min(SPOTS, Math.ceil(length / 2)));
  const along = Array.from({ length: count + 1 }, (_, i) => Number(((i * length) / count).toFixed(1)));
  const points = along.map((s) => toPixels(plane.at(s)));
  return {
    along,
    x: points.map(([x]) => Number(x.toFixed(1))),
    y: points.map(([, y]) => Number(y.toFixed(1))),
  };
}
