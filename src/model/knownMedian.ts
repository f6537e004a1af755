import { select } from './select';

/** The median of a column, NaN left out: of an even number the middle of the two in the middle; NaN where nothing is left. */
export function knownMedian(values: ArrayLike<number>): number {
  const column = new Float64Array(values.length);
  let count = 0;
  for (let i = 0; i < values.length; i++) if (!Number.isNaN(values[i])) column[count++] = values[i];
  if (count === 0) return Number.NaN;
  const known = column.subarray(0, count);
  const middle = (count - 1) >> 1;
  select(known, middle);
  if (count % 2 === 1) return known[middle];
  let above = Infinity;
  for (let i = middle + 1; i < count; i++) above = Math.min(above, known[i]);
  return (known[middle] + above) / 2;
}
