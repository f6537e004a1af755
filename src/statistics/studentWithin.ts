import { betaShare } from './betaShare';

/**
 * Probability that Student's t lies within ± t; degrees of freedom need not be whole.
 *
 * @see Abramowitz & Stegun, Handbook of Mathematical Functions (1964), 26.7.1
 */
export function studentWithin(t: number, degrees: number): number {
  // of the two forms the one that keeps its digits near 0
  const square = t * t;
  return square < degrees
    ? betaShare(square / (degrees + square), 0.5, degrees / 2)
    : 1 - betaShare(degrees / (degrees + square), degrees / 2, 0.5);
}
