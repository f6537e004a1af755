/** How far a column remembers itself. */
export interface Correlation {
  /** As many independent samples hold as much about the mean. */
  readonly effectiveSamples: number;
  /** Entries until the correlation falls below 1/e; null when it never does within a third of the column. */
  readonly length: number | null;
}

/** Longer columns are pooled: what is sought is hundreds of entries long, and the work grows with the square. */
const LONGEST = 1000;

/**
 * Effective number of samples n ÷ (1 + 2 Σ (1 − k/n) ρₖ), summed to the first ρₖ that is not positive.
 *
 * Gaps are closed up: the few products across them weigh nothing beside the rest. Undefined with fewer than 3 values or no
 * spread.
 */
export function correlationOf(values: ArrayLike<number>): Correlation | undefined {
  const given = Float64Array.from(values as ArrayLike<number>).filter((value) => !Number.isNaN(value));
  const pool = Math.ceil(given.length / LONGEST);
  const n = Math.floor(given.length / pool);
  if (given.length < 3) return undefined;
  const column = new Float64Array(n);
  let mean = 0;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < pool; j++) column[i] += given[i * pool + j] / pool;
    mean += column[i] / n;
  }
  let variance = 0;
  for (let i = 0; i < n; i++) {
    column[i] -= mean;
    variance += column[i] * column[i];
  }
  if (!(variance > 1e-18 * n)) return undefined;
  let sum = 0;
  let length: number | null = null;
  // Beyond a third of the column the estimate rests on too few products to mean anything.
  for (let k = 1; k <= n / 3; k++) {
    let product = 0;
    for (let i = k; i < n; i++) product += column[i] * column[i - k];
    const rho = product / variance;
    if (length === null && rho < 1 / Math.E) length = k * pool;
    if (rho <= 0) break;
    sum += (1 - k / n) * rho;
  }
  return { effectiveSamples: Math.min(n, n / (1 + 2 * sum)), length };
}
