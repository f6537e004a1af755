import { quantileSorted } from 'd3-array';
import type { ChanceMean } from '../assess';
import { type Interval, studentQuantile } from '../statistics';

/** To either side of a percentile so large a part of what is left there says how fast it changes. */
const BESIDE = 0.4;

/** A percentile of few samples is off further than of many: found by simulation, see bench/clock.ts. */
const widening = (share: number, samples: number) => 0.92 + (share > 0.9 ? 3 : 2) / samples;

/**
 * 95 % limits of a percentile of sizes that forget themselves slowly, even on the scale of logarithms.
 *
 * With p the share and n the effective samples, the variance of the share below the percentile is p(1 − p)/n; what that is
 * in sizes the sizes to either side say, on the scale of −ln(1 − p), on which a Weibull distribution's logarithm is straight.
 *
 * @param sizes - sorted
 * @param squares - the mean of their squares: its effective samples are taken
 */
export function percentileLimits(sizes: Float64Array, share: number, squares: ChanceMean): Interval {
  const at = (p: number) => quantileSorted(sizes as ArrayLike<number> as number[], p)!;
  const found = at(share);
  const beside = BESIDE * Math.min(share, 1 - share);
  const [low, high] = [share - beside, share + beside];
  const [from, to] = [at(low), at(high)];
  if (!(from > 0 && to > from)) return [found, found];
  const scale = (p: number) => -Math.log1p(-p);
  const slope = Math.log(to / from) / Math.log(scale(high) / scale(low));
  // the logarithm of the size by the share
  const steep = slope / (scale(share) * (1 - share));
  let scatter = 0;
  for (let i = 0; i < sizes.length; i++) scatter += (sizes[i] ** 2 - squares.mean) ** 2 / sizes.length;
  const samples = Math.min(sizes.length, scatter / squares.variance);
  const half =
    studentQuantile(0.95, squares.degrees) *
    widening(share, samples) *
    steep *
    Math.sqrt((share * (1 - share)) / samples);
  return [found * Math.exp(-half), found * Math.exp(half)];
}
