import { bulge } from './bulge';

/** The longest piece in metres whose bulge is below 1e-7 m, or 1e-11 of the distance. */
export function convexPiece(distance: number): number {
  return Math.sqrt(Math.max(1e-7, distance * 1e-11) / bulge(1, distance));
}
