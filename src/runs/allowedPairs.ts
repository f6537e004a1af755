import { isConfounded } from '../assess';
import { correctedPairs, studentInterval, studentQuantile } from '../statistics';
import { placements, type Run } from './summaryRuns';
import type { AllowedDifference } from './TestSummary';

/** Shares within which two receivers were as much on allowed ground; no smaller difference is claimed either. */
const EQUAL_SHARE = 0.02;

export const ALLOWED_RULE = `Shares on allowed ground are compared run by run, by Student’s t from the spread between the runs: more, where the 95 % interval excludes 0, also after the correction over the pairs, and the difference exceeds ${100 * EQUAL_SHARE} percentage points; equivalent, where the whole 90 % interval lies within them.`;

/** What one receiver was more on allowed ground than another, for each couple; null where no run has both shares. */
export function allowedPairs(
  runs: readonly Run[],
  receivers: readonly string[],
  couples: readonly { readonly first: string; readonly second: string }[],
  section: string | null,
): (AllowedDifference | null)[] {
  const shareIn = ({ byReceiver }: Run, receiver: string) => {
    const member = byReceiver.get(receiver);
    return member?.told.get(section)?.rows.get(member.recording)?.insideAllowed ?? null;
  };
  const spreads = couples.map(({ first, second }) => {
    const differences = runs.flatMap((run) => {
      const [a, b] = [shareIn(run, first), shareIn(run, second)];
      return a === null || b === null ? [] : [a - b];
    });
    const spread = studentInterval(differences);
    return spread && { ...spread, runs: differences.length };
  });
  const numbers = new Map(receivers.map((receiver, i) => [receiver, i]));
  const corrected = correctedPairs(
    couples.map(({ first, second }, i) => ({
      first: numbers.get(first)!,
      second: numbers.get(second)!,
      pValue: spreads[i]?.pValue ?? null,
    })),
    receivers.length,
  );
  return couples.map(({ first, second }, i): AllowedDifference | null => {
    const spread = spreads[i];
    if (!spread) return null;
    const { mean, sd, interval95, runs: n } = spread;
    const { adjusted: adjustedPValue } = corrected[i];
    const verdict = (): AllowedDifference['verdict'] => {
      if (sd === null || interval95 === null || isConfounded(placements(runs, first, second))) return 'undecided';
      const half90 = (studentQuantile(0.9, n - 1) * sd) / Math.sqrt(n);
      if (Math.abs(mean) + half90 < EQUAL_SHARE) return 'equivalent';
      const sure = interval95[0] > 0 || interval95[1] < 0;
      return sure && Math.abs(mean) > EQUAL_SHARE && (adjustedPValue ?? 1) <= 0.05 ? 'more' : 'undecided';
    };
    const found = verdict();
    return {
      runs: n,
      difference: mean,
      interval95,
      adjustedPValue,
      verdict: found,
      more: found !== 'more' ? null : mean > 0 ? first : second,
    };
  });
}
