import { type Assessment, awayMore, type Interval, isConfounded, undecided, verdictOf } from '../assess';
import { detectableDifference, holm, runsNeeded, signFlip, studentInterval } from '../statistics';
import { type Member, placements, type Run } from './summaryRuns';
import type { SummaryPair } from './TestSummary';

/** Every two receivers on one section over the runs that have both. */
export function summaryPairs(
  assessments: readonly Assessment[],
  runs: readonly Run[],
  receivers: readonly string[],
  section: string | null,
): SummaryPair[] {
  // of several margins and lever arms the strictest
  const equivalence = Math.min(...assessments.map(({ method }) => method.options.equivalence));
  const leverArm = Math.max(...assessments.map(({ method }) => method.options.leverArm));
  const drafts = receivers.flatMap((first, i) =>
    receivers.slice(i + 1).map((second) => {
      const found = runs.map(({ members }) => pairIn(members, first, second, section));
      const byRun = found.map((pair) => pair?.difference ?? null);
      const differences = byRun.filter((value) => value !== null);
      return {
        first,
        second,
        found: found.flatMap((pair) => (pair ? [pair] : [])),
        byRun,
        differences,
        spread: studentInterval(differences),
      };
    }),
  );
  const adjusted = holm(drafts.map(({ spread }) => spread?.pValue ?? null));
  return drafts.map(({ first, second, found, byRun, differences, spread }, i): SummaryPair => {
    const n = differences.length;
    const floor = Math.max(leverArm, ...found.map((pair) => pair.floor));
    const meanOf = (value: (pair: RunPair) => number) => found.reduce((sum, pair) => sum + value(pair) / n, 0);
    const judge = (difference: number, interval95: Interval) =>
      verdictOf(
        { difference, interval95, floor, commonShare: meanOf((pair) => pair.commonShare), adjustedPValue: adjusted[i] },
        equivalence,
        (candidate) =>
          isConfounded(placements(runs, first, second))
            ? { reason: 'unbalanced', message: 'The two were never swapped between places: the place may explain it.' }
            : awayMore(
                candidate,
                difference,
                { name: first, away: meanOf(({ firstAway }) => firstAway) },
                { name: second, away: meanOf(({ secondAway }) => secondAway) },
              ),
      );
    const { verdict, limits } = !spread
      ? undecided('nothing-in-common', 'No run has both.')
      : !spread.interval95
        ? undecided('one-run', 'One run ranks nothing.')
        : judge(spread.mean, spread.interval95);
    const needed = spread?.sd == null ? null : runsNeeded(spread.sd, spread.mean);
    return {
      first,
      second,
      section,
      runs: n,
      difference: spread?.mean ?? null,
      interval95: spread?.interval95 ?? null,
      verdict,
      closer: verdict !== 'closer' ? null : spread!.mean < 0 ? first : second,
      floor,
      pValue: spread?.pValue ?? null,
      signFlipPValue: signFlip(differences),
      adjustedPValue: adjusted[i],
      betweenRunSd: spread?.sd ?? null,
      detectable: spread?.sd == null ? null : detectableDifference(spread.sd, n),
      moreRuns: needed === null ? null : Math.max(0, needed - n),
      byRun,
      limits,
    };
  });
}

/** Two receivers in one run: what `first` has more than `second`, on what both covered. */
interface RunPair {
  readonly difference: number;
  readonly floor: number;
  readonly commonShare: number;
  /** Shares of the stretch spent off the route. */
  readonly firstAway: number;
  readonly secondAway: number;
}

function pairIn(
  members: readonly Member[],
  first: string,
  second: string,
  section: string | null,
): RunPair | undefined {
  const a = members.find(({ receiver }) => receiver === first);
  const b = members.find(({ receiver }) => receiver === second);
  if (!a || !b) return undefined;
  const { pairs } = a.assessment;
  const has = (one: Member, other: Member) =>
    pairs.find((pair) => pair.section === section && pair.first === one.recording && pair.second === other.recording);
  const [straight, turned] = [has(a, b), has(b, a)];
  const pair = straight ?? turned;
  if (pair?.difference == null) return undefined;
  return {
    difference: pair === straight ? pair.difference : -pair.difference,
    floor: pair.floor,
    commonShare: pair.commonShare,
    firstAway: awayOf(a, section),
    secondAway: awayOf(b, section),
  };
}

function awayOf({ assessment, recording }: Member, section: string | null): number {
  const row = assessment.rows.find((one) => one.recording === recording && one.section === section);
  return row && row.referenceLength > 0 ? row.offRoute / row.referenceLength : 0;
}
