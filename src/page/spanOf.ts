import type { Recording } from 'datumline';

/** First and last time of a recording; undefined without times. */
export function spanOf({ time }: Recording): [begin: number, end: number] | undefined {
  let low = Infinity;
  let high = -Infinity;
  for (const value of time ?? []) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return low <= high ? [low, high] : undefined;
}
