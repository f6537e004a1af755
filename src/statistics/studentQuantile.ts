import { studentWithin } from './studentWithin';

/** The t that holds `within` of the probability between −t and t: 0.95 gives the two-sided 95 % quantile. */
export function studentQuantile(within: number, degrees: number): number {
  let low = 0;
  let high = 1;
  while (studentWithin(high, degrees) < within) high *= 2;
  for (let i = 0; i < 100 && high - low > 1e-12 * high; i++) {
    const middle = (low + high) / 2;
    if (studentWithin(middle, degrees) < within) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
