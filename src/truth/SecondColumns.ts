import type { TimedErrors } from './errorsByTime';

/** The means of a recording's errors over each second of the truth; NaN where it has none. */
export interface SecondColumns {
  readonly horizontal: Float64Array;
  readonly along: Float64Array;
  readonly across: Float64Array;
  readonly up: Float64Array;
  readonly east: Float64Array;
  readonly north: Float64Array;
  readonly speed: Float64Array;
}

const kinds = ['horizontal', 'along', 'across', 'up', 'east', 'north', 'speed'] as const;

/**
 * Errors by fix gathered into bins of time, each the mean of its fixes: so that a receiver of ten fixes a second weighs as
 * one of a single fix.
 *
 * @param begun - milliseconds since the Unix epoch at which the first bin begins
 * @param length - seconds of a bin
 * @param trusted - 1 for each fix that counts
 */
export function secondColumns(
  errors: TimedErrors,
  time: ArrayLike<number>,
  trusted: ArrayLike<number>,
  { begun, count, length = 1 }: { readonly begun: number; readonly count: number; readonly length?: number },
): SecondColumns {
  const fixes = new Int32Array(errors.horizontal.length).fill(-1);
  for (let i = 0; i < fixes.length; i++) {
    if (trusted[i] !== 1 || Number.isNaN(errors.horizontal[i])) continue;
    fixes[i] = Math.floor((time[i] - begun) / (1000 * length));
  }
  const counts = new Uint32Array(count);
  const meanOf = (values: Float64Array) => {
    const sums = new Float64Array(count);
    counts.fill(0);
    for (let i = 0; i < values.length; i++) {
      const k = fixes[i];
      // a late fix may lie after the last second of the truth that it is compared with
      if (k < 0 || k >= count || Number.isNaN(values[i])) continue;
      sums[k] += values[i];
      counts[k]++;
    }
    for (let k = 0; k < count; k++) sums[k] = counts[k] > 0 ? sums[k] / counts[k] : Number.NaN;
    return sums;
  };
  return Object.fromEntries(kinds.map((kind) => [kind, meanOf(errors[kind])])) as unknown as SecondColumns;
}
