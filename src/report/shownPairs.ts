import type { Interval, Verdict, VerdictLimit } from '../assess';
import type { Receiver, ReportModel } from './reportModel';

/** Two receivers on one stretch, in one run or over the runs. */
export interface ShownPair {
  /** The run, where there is more than one and no summary speaks for them together. */
  readonly title: string | null;
  readonly first: Receiver;
  readonly second: Receiver;
  readonly section: string | null;
  readonly difference: number | null;
  readonly interval95: Interval | null;
  readonly interval90: Interval | null;
  readonly verdict: Verdict;
  readonly closer: Receiver | undefined;
  readonly limits: readonly VerdictLimit[];
  readonly detectable: number | null;
  /** Null where it is not known, and in one run. */
  readonly moreRuns: number | null;
  /** Runs it rests on; null in one run. */
  readonly runs: number | null;
  /** Of the two offsets in one run. */
  readonly correlation: number | null;
}

/** Every two receivers that are compared, by stretch: over the runs where a summary has them, else run by run. */
export function shownPairs(model: ReportModel): ShownPair[] {
  return model.summary ? summedPairs(model) : runPairs(model);
}

function summedPairs({ summary, receivers }: ReportModel): ShownPair[] {
  const named = (label: string | null) => receivers.find((receiver) => receiver.label === label);
  return summary!.pairs.flatMap((pair) => {
    const [first, second] = [named(pair.first), named(pair.second)];
    if (!first || !second) return [];
    return [{ ...pair, title: null, first, second, closer: named(pair.closer), correlation: null }];
  });
}

function runPairs({ assessments, strands, runs }: ReportModel): ShownPair[] {
  return assessments.flatMap((assessment) =>
    assessment.pairs.flatMap((pair) => {
      const strand = (name: string | null) =>
        strands.find((s) => s.assessment === assessment && s.recording.name === name);
      const [first, second] = [strand(pair.first), strand(pair.second)];
      if (!first || !second) return [];
      return [
        {
          ...pair,
          title: runs.length > 1 ? first.run : null,
          first: first.receiver,
          second: second.receiver,
          closer: strand(pair.closer)?.receiver,
          moreRuns: null,
          runs: null,
        },
      ];
    }),
  );
}
