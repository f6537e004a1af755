import { FARTHEST_RATIO } from '../statistics';

/**
 * Metres by which the further of two must lie further off for being told: so many times as far as the closer one lies, and
 * beyond the floor.
 *
 * @param ratio logarithm of how many times as far
 */
export function detectableMetres(
  { first, second }: { readonly first: number; readonly second: number },
  floor: number,
  ratio: number,
): number {
  return Math.max(floor, Math.min(first, second) * Math.expm1(Math.min(FARTHEST_RATIO, ratio)));
}
