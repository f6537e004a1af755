import { closerAmong, LEAST_OVERALL, stretchSentence } from '../assess';
import { simes, tieGroups } from '../statistics';
import type { SummaryOrder, SummaryPair, SummaryRow } from './TestSummary';

/** The receivers by mean distance; those not told apart share a letter. */
export function summaryOrder(
  section: string | null,
  rows: readonly SummaryRow[],
  pairs: readonly SummaryPair[],
  runs: number,
  equivalence: number,
  balanced: (receiver: string) => number | null,
): SummaryOrder {
  const sorted = rows.filter((row) => row.meanAbsolute !== null).sort((a, b) => a.meanAbsolute! - b.meanAbsolute!);
  const names = sorted.map(({ receiver }) => receiver);
  const beats = closerAmong(names, pairs);
  const ties = tieGroups(names.length, (i, j) => beats(i, j) || beats(j, i));
  const everyTwo = pairs.length === (names.length * (names.length - 1)) / 2;
  const overallPValue =
    everyTwo && names.length >= LEAST_OVERALL && runs > 1 ? simes(pairs.map(({ pValue }) => pValue)) : null;
  return {
    section,
    entries: sorted.map(({ receiver, meanAbsolute }, i) => ({
      receiver,
      meanAbsolute: meanAbsolute!,
      balancedMean: section === null ? balanced(receiver) : null,
      ties: ties[i],
      place: {
        best: 1 + names.filter((_, j) => beats(j, i)).length,
        worst: names.length - names.filter((_, j) => beats(i, j)).length,
      },
    })),
    overallPValue,
    sentence: stretchSentence({
      section,
      rows: sorted.map((row) => ({ ...row, name: row.receiver })),
      pairs,
      overallPValue,
      equivalence,
      ones: 'receivers',
      holdsFor: `${runs} ${runs === 1 ? 'run' : 'runs'}`,
    }),
  };
}
