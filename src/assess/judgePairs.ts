import type { Pair } from './Assessment';
import type { Comparison } from './comparePair';
import { holm } from './holm';

/** A pair may be called closer or equivalent only where both cover at least this share of the stretch. */
const LEAST_COMMON = 0.5;

/**
 * Verdicts on pairs that are looked at together: one section of one run.
 *
 * - `closer`: the interval excludes 0, so does Holm's correction over the pairs, and the difference exceeds the floor
 * - `equivalent`: the whole interval lies within ± `equivalence`
 * - `undecided`: neither
 *
 * @param cap why a pair may not be called closer whatever its figures; undefined if it may
 */
export function judgePairs(
  comparisons: readonly Comparison[],
  equivalence: number,
  cap: (comparison: Comparison) => string | undefined,
): Pair[] {
  const adjusted = holm(comparisons.map(({ pValue }) => pValue));
  return comparisons.map((comparison, i): Pair => {
    const { difference, interval95, floor, commonShare, ...rest } = comparison;
    const limits: string[] = [];
    let verdict: Pair['verdict'] = 'undecided';
    if (difference === null) limits.push('no stretch in common');
    else if (interval95 === null) limits.push('too short a stretch in common for an interval');
    else if (commonShare < LEAST_COMMON) limits.push('less than half of the stretch in common');
    else {
      const [low, high] = interval95;
      if (low > -equivalence && high < equivalence) verdict = 'equivalent';
      else if (low <= 0 && high >= 0) limits.push('the interval includes 0');
      else if (Math.abs(difference) <= floor) limits.push(`smaller than the floor of ${floor.toFixed(1)} m`);
      else if ((adjusted[i] ?? 1) > 0.05) limits.push('not beyond chance among so many pairs');
      else {
        const reason = cap(comparison);
        if (reason === undefined) verdict = 'closer';
        else limits.push(reason);
      }
    }
    return {
      ...rest,
      difference,
      interval95,
      commonShare,
      floor,
      adjustedPValue: adjusted[i],
      verdict,
      ...(verdict === 'closer' ? { closer: difference! < 0 ? comparison.first : comparison.second } : {}),
      limits,
    };
  });
}
