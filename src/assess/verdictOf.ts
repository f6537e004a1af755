import type { Interval, Verdict, VerdictLimit } from './Assessment';
import { undecided } from './undecided';

/** A pair may be called closer or equivalent only where both cover at least this share of the stretch. */
const LEAST_COMMON = 0.5;

export const VERDICT_RULE = `Closer: the 95 % interval of the paired difference excludes 0, also after the correction over the pairs (closed test over the ways to sort the receivers into groups that are alike; Shaffer’s steps above seven receivers, Holm’s against a baseline), and the difference exceeds the floor. Equivalent: the whole 90 % interval lies within the margin (two one-sided tests at 5 %). Neither is said where less than ${100 * LEAST_COMMON} % of the stretch is in common. Otherwise undecided.`;

/** What a verdict rests on. */
export interface VerdictFigures {
  readonly difference: number;
  readonly interval95: Interval;
  readonly interval90: Interval;
  readonly floor: number;
  /** Metres of the difference that sparser fixes of the closer one alone explain. @defaultValue 0 */
  readonly sparseGain?: number;
  readonly commonShare: number;
  readonly adjustedPValue: number | null;
}

/** A verdict, and what held it back. */
export interface JudgedVerdict {
  readonly verdict: Verdict;
  readonly limits: readonly VerdictLimit[];
}

/**
 * The verdict on two that are compared, and what held it back.
 *
 * - `closer`: the 95 % interval excludes 0, also after the correction over the pairs, and what sparser fixes explain; the
 *   difference exceeds the floor
 * - `equivalent`: the whole 90 % interval lies within ± `equivalence`
 * - `undecided`: neither
 *
 * @param cap why neither may be said whatever the figures; undefined if it may
 */
export function verdictOf(
  {
    difference,
    interval95: [low, high],
    interval90,
    floor,
    sparseGain = 0,
    commonShare,
    adjustedPValue,
  }: VerdictFigures,
  equivalence: number,
  cap: (candidate: Verdict) => VerdictLimit | undefined,
): JudgedVerdict {
  if (commonShare < LEAST_COMMON) return undecided('little-in-common', 'The two share less than half of the stretch.');
  const candidate = interval90[0] > -equivalence && interval90[1] < equivalence ? 'equivalent' : 'closer';
  if (candidate === 'closer') {
    if (low <= 0 && high >= 0) return undecided('includes-zero', 'The interval includes 0.');
    if (Math.abs(difference) <= floor)
      return undecided('below-floor', `The difference is smaller than the floor of ${floor.toFixed(1)} m.`);
    if (Math.min(Math.abs(low), Math.abs(high)) <= sparseGain)
      return undecided(
        'sparse-fixes',
        `Straight lines between sparser fixes alone explain ${sparseGain.toFixed(1)} m of it.`,
      );
    if ((adjustedPValue ?? 1) > 0.05)
      return undecided('many-pairs', 'With so many pairs compared, it could be chance.');
  }
  const limit = cap(candidate);
  return limit === undefined ? { verdict: candidate, limits: [] } : { verdict: 'undecided', limits: [limit] };
}
