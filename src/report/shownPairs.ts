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

/**
 * Every two receivers that are compared, by stretch: over the runs where a summary has them, else run by run.
 *
 * @param section - those of one stretch alone; null is the whole route
 */
export function shownPairs(model: ReportModel, section?: string | null): ShownPair[] {
  const wanted = (pair: { readonly section: string | null }) => section === undefined || pair.section === section;
  return model.summary ? summedPairs(model, wanted) : runPairs(model, wanted);
}

type Wanted = (pair: { readonly section: string | null }) => boolean;

function summedPairs({ summary, receivers }: ReportModel, wanted: Wanted): ShownPair[] {
  const named = (label: string | null) => receivers.find((receiver) => receiver.label === label);
  return summary!.pairs.filter(wanted).flatMap((pair) => {
    const [first, second] = [named(pair.first), named(pair.second)];
    if (!first || !second) return [];
    return [{ ...pair, title: null, first, second, closer: named(pair.closer), correlation: null }];
  });
}

function runPairs({ assessments, strands, runs }: ReportModel, wanted: Wanted): ShownPair[] {
  return assessments.flatMap((assessment) => {
    const named = new Map(strands.filter((s) => s.assessment === assessment).map((s) => [s.recording.name, s]));
    return assessment.pairs.filter(wanted).flatMap((pair) => {
      const [first, second] = [named.get(pair.first), named.get(pair.second)];
      if (!first || !second) return [];
      return [
        {
          ...pair,
          title: runs.length > 1 ? first.run : null,
          first: first.receiver,
          second: second.receiver,
          closer: pair.closer === null ? undefined : named.get(pair.closer)?.receiver,
          moreRuns: null,
          runs: null,
        },
      ];
    });
  });
}
