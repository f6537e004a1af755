import { simes, tieGroups } from '../statistics';
import type { AssessmentRow, OrderEntry, Pair, SectionOrder } from './Assessment';
import { closerAmong } from './closerAmong';
import { LEAST_OVERALL } from './leastOverall';
import { stretchSentence, type ToldRow } from './stretchSentence';

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
  const names = sorted.map(({ recording }) => recording);
  const count = names.length;
  const beats = closerAmong(names, pairs);
  const ties = tieGroups(count, (i, j) => beats(i, j) || beats(j, i));
  const entries = sorted.map((row, i): OrderEntry => {
    const beaten = names.filter((_, j) => beats(i, j)).length;
    const losing = names.filter((_, j) => beats(j, i)).length;
    return {
      recording: row.recording,
      meanAbsolute: row.meanAbsolute!,
      balancedMean: section === null ? balanced(row.recording) : null,
      ties: ties[i],
      place: { best: losing + 1, worst: count - beaten },
    };
  });
  const everyTwo = pairs.length === (count * (count - 1)) / 2;
  const overallPValue = everyTwo && count >= LEAST_OVERALL ? simes(pairs.map(({ pValue }) => pValue)) : null;
  const sentence = stretchSentence({
    section,
    rows: sorted.map(toldRow),
    pairs,
    overallPValue,
    equivalence,
    ones: 'recordings',
    holdsFor: 'this run only',
  });
  return { section, run, entries, overallPValue, sentence };
}

/** What is told of a row and no more: they are long. */
function toldRow({
  recording: name,
  meanAbsolute,
  interval95,
  bias,
  biasInterval95,
  lineVerdict,
  strayedTo,
  lineLimit,
  sureSide,
}: Omit<AssessmentRow, 'verdictLimit'>): ToldRow {
  return { name, meanAbsolute, interval95, bias, biasInterval95, lineVerdict, strayedTo, lineLimit, sureSide };
}
