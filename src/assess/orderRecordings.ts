import { tieGroups } from '../statistics';
import type { AssessmentRow, OrderEntry, Pair, SectionOrder } from './Assessment';

/** The recordings of a run on one stretch by mean distance; those not told apart share a letter. */
export function orderRecordings(
  rows: readonly Pick<AssessmentRow, 'recording' | 'meanAbsolute'>[],
  pairs: readonly Pair[],
  section: string | null,
  run: string | null,
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
  return { section, run, entries, sentence: sentenceFor(entries, pairs, section) };
}

function sentenceFor(entries: readonly OrderEntry[], pairs: readonly Pair[], section: string | null): string {
  const where = section === null ? 'Over the whole route' : `On “${section}”`;
  if (entries.length === 0) return `${where}: nothing was covered.`;
  if (entries.length === 1) return `${where}: one recording, nothing to compare it with.`;
  const told = pairs.filter(({ verdict }) => verdict === 'closer');
  const equal = pairs.filter(({ verdict }) => verdict === 'equivalent');
  const open = pairs.length - told.length - equal.length;
  const parts = told.map(({ first, second, closer, difference, interval95 }) => {
    const [low, high] = interval95!.map(Math.abs).sort((a, b) => a - b);
    const other = closer === first ? second : first;
    return `“${closer}” lay closer than “${other}” by ${Math.abs(difference!).toFixed(1)} m (${low.toFixed(1)} to ${high.toFixed(1)})`;
  });
  if (equal.length > 0) {
    parts.push(equal.map(({ first, second }) => `“${first}” and “${second}” lay equally close`).join(', '));
  }
  if (open > 0) {
    parts.push(
      told.length + equal.length === 0
        ? 'no difference between the recordings is shown'
        : `${open} of ${pairs.length} pairs ${open === 1 ? 'stays' : 'stay'} undecided`,
    );
  }
  return `${where}: ${parts.join('; ')}. This run only.`;
}
