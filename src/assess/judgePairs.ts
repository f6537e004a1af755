import { holm } from '../statistics';
import type { Pair, Verdict } from './Assessment';
import type { Comparison } from './comparePair';
import { verdictOf } from './verdictOf';

/**
 * Verdicts on pairs that are looked at together: one section of one run.
 *
 * @param cap why a pair may be called neither closer nor equivalent whatever its figures; undefined if it may
 */
export function judgePairs(
  comparisons: readonly Comparison[],
  equivalence: number,
  cap: (comparison: Comparison, candidate: Verdict) => string | undefined,
): Pair[] {
  const adjusted = holm(comparisons.map(({ pValue }) => pValue));
  return comparisons.map((comparison, i): Pair => {
    const { difference, interval95, floor, commonShare, moved, ...rest } = comparison;
    const adjustedPValue = adjusted[i];
    const { verdict, limits } =
      difference === null
        ? { verdict: 'undecided' as const, limits: ['no stretch in common'] }
        : interval95 === null
          ? { verdict: 'undecided' as const, limits: ['too short a stretch in common for an interval'] }
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
      ...(verdict === 'closer' ? { closer: difference! < 0 ? comparison.first : comparison.second } : {}),
      limits,
    };
  });
}
