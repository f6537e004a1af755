import type { MapBox } from './mapFrame';
import type { Place } from './reportModel';
import type { RoutePlane } from './routePlane';

/** Around the worst peak of a place, wide enough to hold it and the line it should have followed; so many times as wide as high. */
export function placeBox({ strayings: [{ excursion }] }: Place, plane: RoutePlane, shape: number): MapBox {
  const [x, y] = plane.at(excursion.peakAt);
  const reach = Math.max(20, 1.6 * Math.abs(excursion.peak), Math.min(60, 0.5 * excursion.metres));
  return { west: x - reach * shape, east: x + reach * shape, south: y - reach, north: y + reach };
}
