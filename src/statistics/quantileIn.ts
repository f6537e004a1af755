import { quantilesIn } from './quantilesIn';

/** One of {@link quantilesIn}. */
export function quantileIn(column: Float64Array, p: number): number {
  return quantilesIn(column, [p])[0];
}
