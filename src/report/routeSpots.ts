import type { MapFrame } from './mapFrame';
import type { Picture } from './Picture';
import type { RoutePlane } from './routePlane';

/** Places a map knows along the route at most. */
const SPOTS = 1500;

/** Where evenly spaced places of the route lie in a map, in pixels: a place every pixel or two. */
export function routeSpots(plane: RoutePlane, length: number, { scale, toPixels }: MapFrame) {
  const count = Math.ceil(Math.max(2, Math.min(SPOTS, (length * scale) / 1.5)));
  const points = Array.from({ length: count + 1 }, (_, i) => toPixels(plane.at((i * length) / count)));
  return {
    along: [0, Number(length.toFixed(1))],
    x: points.map(([x]) => Math.round(x)),
    y: points.map(([, y]) => Math.round(y)),
  } satisfies Picture['walk'];
}
