import type { MapBox } from './mapFrame';
import type { Place } from './reportModel';
import type { RoutePlane } from './routePlane';

/** Around the worst peak of a place, wide enough to hold it and the line it should have followed; so many times as wide as high; and what of the recordings to show there, in metres along the route: other passes would hide it. */
export function placeBox({ strayings: [{ excursion }] }: Place, plane: RoutePlane, shape: number) {
  const [x, y] = plane.at(excursion.peakAt);
  const reach = Math.max(20, 1.6 * Math.abs(excursion.peak), Math.min(60, 0.5 * excursion.metres));
  const box: MapBox = { west: x - reach * shape, east: x + reach * shape, south: y - reach, north: y + reach };
  return {
    box,
    pass: [
      Math.min(excursion.from, excursion.peakAt - 6 * reach),
      Math.max(excursion.to, excursion.peakAt + 6 * reach),
    ] as const,
  };
}
