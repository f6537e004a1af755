/**
 * The sum of the first `count` entries of a column; its rounding error does not grow with their number. As `Sum` adds them up,
 * with nothing left to collect.
 */
export function sumOf(column: Float64Array, count: number): number {
  let sum = 0;
  let lost = 0;
  for (let i = 0; i < count; i++) {
    const term = column[i];
    const next = sum + term;
    lost += Math.abs(sum) >= Math.abs(term) ? sum - next + term : term - next + sum;
    sum = next;
  }
  return sum + lost;
}
