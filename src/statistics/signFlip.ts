/** Beyond this 2ⁿ signs take too long, and the t test is good enough. */
const MOST = 20;

/**
 * Probability, were the signs of the values chance, of a mean as far from 0: every one of the 2ⁿ choices of signs counts.
 *
 * Null without values or with more than 20. With n values nothing below 2 ÷ 2ⁿ can come out: 3 runs never reach 0.05.
 *
 * @remarks O(n 2^(n/2)): both halves of the values by themselves, in order
 * @see Fisher, The Design of Experiments (1935), §21
 */
export function signFlip(values: readonly number[]): number | null {
  const n = values.length;
  if (n === 0 || n > MOST) return null;
  const seen = Math.abs(values.reduce((sum, value) => sum + value, 0));
  // The sums of one choice come in several orders of adding: a hair of slack keeps equal ones equal.
  const limit = seen - 1e-12 * values.reduce((sum, value) => sum + Math.abs(value), 0);
  // every choice is one of the first half with one of the other: both in order, one pass counts them all
  const some = sumsOf(values.slice(0, n >> 1));
  const others = sumsOf(values.slice(n >> 1));
  let extreme = 0;
  let above = others.length;
  let below = others.length;
  for (const sum of some) {
    while (above > 0 && sum + others[above - 1] >= limit) above--;
    while (below > 0 && sum + others[below - 1] > -limit) below--;
    // where nothing is asked for, one choice would count on both sides
    extreme += limit > 0 ? others.length - above + below : others.length;
  }
  return extreme / 2 ** n;
}

/** Of every choice of signs the sum, in order. */
function sumsOf(values: readonly number[]): Float64Array {
  const sums = new Float64Array(2 ** values.length);
  let signs = 1;
  for (const value of values) {
    for (let i = 0; i < signs; i++) {
      sums[signs + i] = sums[i] - value;
      sums[i] += value;
    }
    signs *= 2;
  }
  return sums.sort();
}
