import { logGamma } from './logGamma';
import { studentWithin } from './studentWithin';

/**
 * The t that holds `within` of the probability between −t and t: 0.95 gives the two-sided 95 % quantile.
 *
 * @remarks Newton from 0: the probability only ever bends down, so that no step goes too far
 */
export function studentQuantile(within: number, degrees: number): number {
  const peak = Math.exp(logGamma((degrees + 1) / 2) - logGamma(degrees / 2)) / Math.sqrt(degrees * Math.PI);
  let t = 0;
  for (let round = 0; round < 200; round++) {
    const density = 2 * peak * (1 + (t * t) / degrees) ** (-(degrees + 1) / 2);
    const step = (within - studentWithin(t, degrees)) / density;
    t += step;
    if (!(step > 1e-12 * t)) break;
  }
  return t;
}
