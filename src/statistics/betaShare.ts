import { logGamma } from './logGamma';

/** Continued fractions that haven't settled by then are our bug: the sides chosen below settle within some √(a + b) rounds. */
const MOST_ROUNDS = 10_000;

/**
 * The regularised incomplete beta function Iₓ(a, b): the share of a beta distribution below `x`.
 *
 * @param x - 0 to 1
 * @param a - above 0, as is `b`; not whole for degrees of freedom that are none
 *
 * @remarks Lentz's rounds of the continued fraction, on the side where it settles fast: 1e-12 up to a + b of some thousands, 1e-9 up to a million.
 * @see NIST Digital Library of Mathematical Functions, 8.17.22 (the fraction) and 8.17.4 (the other side)
 */
export function betaShare(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - betaShare(1 - x, b, a);
  const front = Math.exp(a * Math.log(x) + b * Math.log1p(-x) + logGamma(a + b) - logGamma(a) - logGamma(b)) / a;
  const away = (value: number) => (Math.abs(value) < 1e-300 ? 1e-300 : value);
  let c = 1;
  let d = 1 / away(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m < MOST_ROUNDS; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / away(1 + even * d);
    c = away(1 + even / c);
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / away(1 + odd * d);
    c = away(1 + odd / c);
    fraction *= d * c;
    if (Math.abs(d * c - 1) < 1e-15) break;
  }
  return front * fraction;
}
