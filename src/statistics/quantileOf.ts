/** A quantile of a sorted column that is not empty, linear between its values at (n − 1)p: type 7 of Hyndman and Fan. */
export function quantileOf(sorted: ArrayLike<number>, p: number): number {
  const place = (sorted.length - 1) * p;
  const below = Math.floor(place);
  if (below === place) return sorted[below];
  return sorted[below] + (sorted[below + 1] - sorted[below]) * (place - below);
}
