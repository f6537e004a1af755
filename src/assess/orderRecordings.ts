import { simes, tieGroups } from '../statistics';
import type { AssessmentRow, OrderEntry, Pair, SectionOrder } from './Assessment';
import { LEAST_OVERALL } from './leastOverall';
import { stretchSentence } from './stretchSentence';

/** The recordings of a run on one stretch by mean distance; those not told apart share a letter. */
export function orderRecordings(
  rows: readonly Omit<AssessmentRow, 'verdictLimit'>[],
  pairs: readonly Pair[],
  section: string | null,
  run: string | null,
  equivalence: number,
  balanced: (recording: string) => number | null,
): SectionOrder {
  const sorted = rows.filter((row) => row.meanAbsolute !== null).sort((a, b) => a.meanAbsolute! - b.meanAbsolute!);
  const winner = (a: string, b: string) =>
    pairs.find(({ first, second }) => (first === a && second === b) || (first === b && second === a))?.closer ?? null;
  const names = sorted.map(({ recording }) => recording);
  const ties = tieGroups(names.length, (i, j) => winner(names[i], names[j]) !== null);
  const entries = sorted.map((row, i): OrderEntry => {
    const beaten = names.filter((other) => other !== row.recording && winner(row.recording, other) === row.recording);
    const losing = names.filter((other) => {
      const closer = winner(row.recording, other);
      return other !== row.recording && closer !== null && closer !== row.recording;
    });
    return {
      recording: row.recording,
      meanAbsolute: row.meanAbsolute!,
      balancedMean: section === null ? balanced(row.recording) : null,
      ties: ties[i],
      place: { best: losing.length + 1, worst: names.length - beaten.length },
    };
  });
  const everyTwo = pairs.length === (names.length * (names.length - 1)) / 2;
  const overallPValue = everyTwo && names.length >= LEAST_OVERALL ? simes(pairs.map(({ pValue }) => pValue)) : null;
  const sentence = stretchSentence({
    section,
    rows: sorted.map((row) => ({ ...row, name: row.recording })),
    pairs,
    overallPValue,
    equivalence,
    ones: 'recordings',
    holdsFor: 'this run only',
  });
  return { section, run, entries, overallPValue, sentence };
}
