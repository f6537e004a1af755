import { holm } from '../statistics';
import type { Pair, Verdict, VerdictLimit } from './Assessment';
import type { Comparison } from './comparePair';
import { undecided } from './undecided';
import { verdictOf } from './verdictOf';

/**
 * Verdicts on pairs that are looked at together: one section of one run.
 *
 * @param cap why a pair may be called neither closer nor equivalent whatever its figures; undefined if it may
 */
export function judgePairs(
  comparisons: readonly Comparison[],
  equivalence: number,
  cap: (comparison: Comparison, candidate: Verdict) => VerdictLimit | undefined,
): Pair[] {
  const adjusted = holm(comparisons.map(({ pValue }) => pValue));
  return comparisons.map((comparison, i): Pair => {
    const { difference, interval95, floor, commonShare, moved, ...rest } = comparison;
    const adjustedPValue = adjusted[i];
    const { verdict, limits } =
      difference === null
        ? undecided('nothing-in-common', 'The two have no stretch in common.')
        : interval95 === null
          ? undecided('too-short', 'The stretch they share is too short for an interval.')
          : verdictOf({ difference, interval95, floor, commonShare, adjustedPValue }, equivalence, (candidate) =>
              cap(comparison, candidate),
            );
    return {
      ...rest,
      difference,
      interval95,
      commonShare,
      floor,
      adjustedPValue,
      verdict,
      closer: verdict !== 'closer' ? null : difference! < 0 ? comparison.first : comparison.second,
      limits,
    };
  });
}
