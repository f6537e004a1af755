/** Beyond this 2ⁿ signs take too long, and the t test is good enough. */
const MOST = 20;

/**
 * Probability, were the signs of the values chance, of a mean as far from 0: every one of the 2ⁿ choices of signs is tried.
 *
 * Null without values or with more than 20. With n values nothing below 2 ÷ 2ⁿ can come out: 3 runs never reach 0.05.
 *
 * @see Fisher, The Design of Experiments (1935), §21
 */
export function signFlip(values: readonly number[]): number | null {
  const n = values.length;
  if (n === 0 || n > MOST) return null;
  const seen = Math.abs(values.reduce((sum, value) => sum + value, 0));
  // The sums of one choice come in several orders of adding: a hair of slack keeps equal ones equal.
  const limit = seen - 1e-12 * values.reduce((sum, value) => sum + Math.abs(value), 0);
  let sum = values.reduce((total, value) => total + value, 0);
  const signs = values.map(() => 1);
  let extreme = 0;
  for (let i = 0; i < 2 ** n; i++) {
    if (Math.abs(sum) >= limit) extreme++;
    // Gray code: one sign changes at a time
    const flip = 31 - Math.clz32((i + 1) & -(i + 1));
    if (flip >= n) break;
    signs[flip] = -signs[flip];
    sum += 2 * signs[flip] * values[flip];
  }
  return extreme / 2 ** n;
}
