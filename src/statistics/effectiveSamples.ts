import { autocorrelation } from './autocorrelation';

/**
 * The effective sample size of a column's mean, as many independent samples as tell as much of it:
 * n ÷ (1 + 2 Σ (1 − k/n) ρₖ), summed up to the first ρₖ that is not positive. Undefined with fewer than 3 values or no spread.
 */
export function effectiveSamples(values: ArrayLike<number>): number | undefined {
  const column = autocorrelation(values);
  if (!column) return undefined;
  const { n, furthest, at } = column;
  let sum = 0;
  for (let lag = 1; lag <= furthest; lag++) {
    const rho = at(lag);
    if (rho <= 0) break;
    sum += (1 - lag / n) * rho;
  }
  return Math.min(n, n / (1 + 2 * sum));
}
