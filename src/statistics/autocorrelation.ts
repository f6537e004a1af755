/** Longer columns are pooled: what is sought is hundreds of entries long, and the work grows with the square. */
const LONGEST = 1000;

/** A column's correlation with itself, lag by lag, as far as somebody asks. */
export interface Autocorrelation {
  /** Entries of the column, pooled, and how many of the given ones make one. */
  readonly n: number;
  readonly pool: number;
  /** Beyond a third of the column the estimate rests on too few products to mean anything. */
  readonly furthest: number;
  readonly at: (lag: number) => number;
}

/**
 * The correlation of a column with itself; undefined with fewer than 3 values or no spread.
 *
 * Gaps are closed up: the few products across them weigh nothing beside the rest.
 */
export function autocorrelation(values: ArrayLike<number>): Autocorrelation | undefined {
  let given = 0;
  for (let i = 0; i < values.length; i++) if (!Number.isNaN(values[i])) given++;
  if (given < 3) return undefined;
  const pool = Math.ceil(given / LONGEST);
  const n = Math.floor(given / pool);
  const column = new Float64Array(n);
  let mean = 0;
  for (let i = 0, k = 0; k < n; k++) {
    let sum = 0;
    for (let taken = 0; taken < pool; i++) {
      if (Number.isNaN(values[i])) continue;
      sum += values[i];
      taken++;
    }
    column[k] = sum / pool;
    mean += column[k] / n;
  }
  let variance = 0;
  for (let i = 0; i < n; i++) {
    column[i] -= mean;
    variance += column[i] * column[i];
  }
  if (!(variance > 1e-18 * n)) return undefined;
  const at = (lag: number) => {
    // four sums, as each addition waits for the one before
    let a = 0;
    let b = 0;
    let c = 0;
    let d = 0;
    let i = lag;
    for (; i + 3 < n; i += 4) {
      a += column[i] * column[i - lag];
      b += column[i + 1] * column[i + 1 - lag];
      c += column[i + 2] * column[i + 2 - lag];
      d += column[i + 3] * column[i + 3 - lag];
    }
    for (; i < n; i++) a += column[i] * column[i - lag];
    return (a + b + (c + d)) / variance;
  };
  return { n, pool, furthest: Math.floor(n / 3), at };
}
