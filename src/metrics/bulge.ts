import { MEAN_RADIUS } from '../geodesy';
/**
 * How many metres farther than at its ends, at the most, the inside of a piece of `length` can be from one edge of another
 * line, when that is about `distance` away: on a globe straight ways side by side bulge apart, so that the distance along
 * them is convex up to this only.
 */
export function bulge(length: number, distance: number): number {
  // by Jacobi's equation its second derivative is no less than −tan(d / R) / R; beyond a quarter of the globe there is no
  // nearest place, and no promise
  const bend = Math.tan(Math.min(distance / MEAN_RADIUS, 1.5)) / MEAN_RADIUS;
  // a tenth more than the mean sphere's, for the ellipsoid
  return (1.1 * bend * length * length) / 8;
}
