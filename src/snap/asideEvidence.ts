/**
 * From here on a fix speaks for another way than the route's, standard deviations and metres at least: errors of this
 * size are rare, and rarer still for long. A receiver is not believed to be better than the least sigma when it is so far
 * off: where it errs most, its middling errors say little.
 */
const SPEAKS_SIGMAS = 2;
const SPEAKS = 25;
const LEAST_SIGMA = 5;

/**
 * How much the fixes must speak for another way, natural logarithm of the odds beyond what fixes at the distance above say:
 * found between missed ways (a minute at 40 m where sigma is 10 m) and false alarms (an hour without any way beside it).
 */
export const ENOUGH = 3.5;

/** Errors persist: so many seconds of fixes speak once. */
const PERSISTS = 60;

/** However far off, no fix speaks louder than this: a third of a minute is needed, for bursts of errors last less. */
const LOUDEST = 10;

/** In so many seconds no fixes speak enough, however far off. */
export const TOO_SHORT = (ENOUGH * PERSISTS) / LOUDEST;

/**
 * How much fixes speak for another way than the route's after one more that lies so many metres from it; never below 0.
 *
 * @param before - What those before it say.
 * @param sigma - Standard deviation of a fix there, metres per axis.
 * @param seconds - Since the fix before.
 */
export function asideEvidence(before: number, distance: number, sigma: number, seconds: number): number {
  const deviation = Math.max(sigma, LEAST_SIGMA);
  const speaks = Math.max(SPEAKS_SIGMAS * deviation, SPEAKS);
  const likelier = Math.min((distance ** 2 - speaks ** 2) / (2 * deviation * deviation), LOUDEST);
  return Math.max(before + (likelier * Math.min(seconds, PERSISTS)) / PERSISTS, 0);
}
