import {
  type Assessment,
  awayMore,
  detectableMetres,
  type ForetoldPair,
  type Interval,
  isConfounded,
  undecided,
  verdictOf,
} from '../assess';
import {
  correctedPairs,
  detectableRatio,
  differenceLimits,
  differencePValue,
  type RatioTest,
  runsJoined,
  signFlip,
  studentInterval,
  studentQuantile,
  type TwoMeans,
} from '../statistics';
import { allowedPairs } from './allowedPairs';
import { strictestMargin } from './strictestMargin';
import { type Member, placements, type Run } from './summaryRuns';
import type { SummaryPair } from './TestSummary';

/** Beyond so many runs nobody goes. */
const MOST_RUNS = 200;

/** Every two receivers, or each with the baseline, on one section over the runs that have both. */
export function summaryPairs(
  assessments: readonly Assessment[],
  runs: readonly Run[],
  receivers: readonly string[],
  section: string | null,
  baseline: string | null,
): SummaryPair[] {
  const equivalence = strictestMargin(assessments);
  // of several lever arms the strictest
  const leverArm = Math.max(...assessments.map(({ method }) => method.options.leverArm));
  const couples = receivers.flatMap((first, i) =>
    receivers
      .slice(i + 1)
      .flatMap((second) => (baseline === null || first === baseline || second === baseline ? [{ first, second }] : [])),
  );
  const found = couples.map(({ first, second }) =>
    runs.map(({ byReceiver }) => pairIn(byReceiver.get(first), byReceiver.get(second), section)),
  );
  const known = found.map((byRun) => byRun.flatMap((pair) => pair ?? []));
  const excess = known.map(excessOf);
  const sharing = new Map<string, number[]>(receivers.map((receiver) => [receiver, []]));
  couples.forEach(({ first, second }, i) => {
    for (const receiver of [first, second]) sharing.get(receiver)!.push(i);
  });
  const tests = couples.map(({ first, second }, i) => {
    // the pair's own excess, then those of pairs that share one of its receivers
    const others = [...sharing.get(first)!, ...sharing.get(second)!]
      .filter((k) => k !== i)
      .sort((a, b) => a - b)
      .flatMap((k) => excess[k] ?? []);
    return overRuns(known[i], excess[i] === null ? null : [excess[i]!, ...others]);
  });
  const corrected = correctedPairs(
    couples.map(({ first, second }, i) => ({
      first: receivers.indexOf(first),
      second: receivers.indexOf(second),
      pValue: tests[i]?.pValue ?? null,
    })),
    receivers.length,
  );
  const allowed = allowedPairs(runs, receivers, couples, section);
  return couples.map(({ first, second }, i): SummaryPair => {
    const byRun = found[i].map((pair) => pair?.difference ?? null);
    const differences = known[i].map(({ difference }) => difference);
    const spread = studentInterval(differences);
    const n = differences.length;
    const test = tests[i];
    const { adjusted: adjustedPValue, level } = corrected[i];
    const floor = Math.max(leverArm, ...known[i].map((pair) => pair.floor));
    const meanOf = (value: (pair: RunPair) => number) => known[i].reduce((sum, pair) => sum + value(pair) / n, 0);
    const judge = ({ interval95, interval90 }: RunsTest) =>
      verdictOf(
        {
          difference: spread!.mean,
          interval95,
          interval90,
          floor,
          commonShare: meanOf((pair) => pair.commonShare),
          adjustedPValue,
        },
        equivalence,
        (candidate) =>
          isConfounded(placements(runs, first, second))
            ? { reason: 'unbalanced', message: 'The two were never swapped between places: the place may explain it.' }
            : awayMore(
                candidate,
                spread!.mean,
                { name: first, away: meanOf(({ firstAway }) => firstAway) },
                { name: second, away: meanOf(({ secondAway }) => secondAway) },
              ),
      );
    const { verdict, limits } = !spread
      ? undecided('nothing-in-common', 'No run has both.')
      : test === null
        ? undecided('one-run', 'One run ranks nothing.')
        : judge(test);
    const metres = (ratio: number) =>
      test!.means ? detectableMetres(test!.means, floor, ratio) : Math.max(floor, ratio);
    const more = () => {
      if (verdict !== 'undecided') return 0;
      // what else holds a verdict back, no number of runs mends
      if (!limits.some(({ reason }) => reason === 'includes-zero' || reason === 'many-pairs')) return null;
      for (let count = n + 1; count <= n + MOST_RUNS; count++) {
        if (metres(detectableRatio({ ...test!.over(count), level })) <= Math.abs(spread!.mean)) return count - n;
      }
      return null;
    };
    return {
      first,
      second,
      section,
      runs: n,
      difference: spread?.mean ?? null,
      interval95: test?.interval95 ?? null,
      interval90: test?.interval90 ?? null,
      verdict,
      closer: verdict !== 'closer' ? null : spread!.mean < 0 ? first : second,
      floor,
      pValue: test?.pValue ?? null,
      signFlipPValue: signFlip(differences),
      adjustedPValue,
      betweenRunSd: spread?.sd ?? null,
      detectable: test && metres(detectableRatio({ ...test.over(n), level })),
      moreRuns: test && more(),
      byRun,
      limits,
      insideAllowed: allowed[i],
    };
  });
}

/** A difference over runs: its limits, and what it would rest on with more of them. */
interface RunsTest {
  readonly interval95: Interval;
  readonly interval90: Interval;
  readonly pValue: number;
  /** What would be tested over so many runs: the logarithm of a ratio where there are `means`, else the difference in metres. */
  readonly over: (runs: number) => Omit<RatioTest, 'level'>;
  readonly means: TwoMeans | null;
}

/** Null with fewer than two runs. */
function overRuns(pairs: readonly RunPair[], excess: readonly number[] | null): RunsTest | null {
  if (pairs.length < 2) return null;
  const meanOf = (value: (pair: ForetoldPair) => number) =>
    pairs.reduce((sum, { foretold }) => sum + value(foretold!) / pairs.length, 0);
  if (excess === null) {
    // too short to foretell anything of a run: what the runs say between them is all there is
    const { sd, interval95, pValue, mean } = studentInterval(pairs.map(({ difference }) => difference))!;
    const half90 = (studentQuantile(0.9, pairs.length - 1) * sd!) / Math.sqrt(pairs.length);
    return {
      interval95: interval95!,
      interval90: [mean - half90, mean + half90],
      pValue: pValue!,
      over: (runs) => ({ variance: sd! ** 2 / runs, scatter: sd! ** 2 / runs, degrees: runs - 1, widening: 1 }),
      means: null,
    };
  }
  const joined = (runs: number, variance: number) => runsJoined(runs, variance, excess);
  // a lone pair's excess is a guess from few runs: what other runs will have leans to what is foretold
  const likely = excess.length > 1 ? excess : [(1 + (pairs.length - 1) * excess[0]) / pairs.length];
  const { variance, degrees } = joined(
    pairs.length,
    meanOf((pair) => pair.variance),
  );
  const means: TwoMeans = {
    first: meanOf(({ first }) => first),
    second: meanOf(({ second }) => second),
    firstVariance: joined(
      pairs.length,
      meanOf((pair) => pair.firstVariance),
    ).variance,
    secondVariance: joined(
      pairs.length,
      meanOf((pair) => pair.secondVariance),
    ).variance,
    variance,
  };
  return {
    interval95: differenceLimits(means, studentQuantile(0.95, degrees)),
    interval90: differenceLimits(means, studentQuantile(0.9, degrees)),
    pValue: differencePValue(means, degrees, 1),
    over: (runs) => ({
      ...runsJoined(
        runs,
        meanOf((pair) => pair.variance),
        likely,
      ),
      widening: 1,
    }),
    means,
  };
}

/** By how much the ratios of the two spread between runs, over what the runs foretell of that; null where it can't be said. */
function excessOf(pairs: readonly RunPair[]): number | null {
  const n = pairs.length;
  if (n < 2 || pairs.some(({ foretold }) => foretold === null)) return null;
  const meanOf = (value: (pair: ForetoldPair) => number) =>
    pairs.reduce((sum, { foretold }) => sum + value(foretold!) / n, 0);
  const [a, b, foretold] = [meanOf(({ first }) => first), meanOf(({ second }) => second), meanOf((p) => p.variance)];
  if (!(a > 0 && b > 0 && foretold > 0)) return null;
  const squares = pairs.reduce((sum, pair) => sum + (pair.foretold!.first / a - pair.foretold!.second / b) ** 2, 0);
  return squares / (n - 1) / foretold;
}

/** Two receivers in one run: what `first` has more than `second`, on what both covered. */
interface RunPair {
  readonly difference: number;
  readonly floor: number;
  readonly commonShare: number;
  readonly foretold: ForetoldPair | null;
  /** Shares of the stretch spent off the route. */
  readonly firstAway: number;
  readonly secondAway: number;
}

function pairIn(a: Member | undefined, b: Member | undefined, section: string | null): RunPair | undefined {
  if (!a || !b) return undefined;
  const pairs = a.told.get(section)?.pairs;
  const straight = pairs?.get(a.recording)?.get(b.recording);
  const pair = straight ?? pairs?.get(b.recording)?.get(a.recording);
  if (pair?.difference == null) return undefined;
  const { foretold } = pair;
  return {
    difference: pair === straight ? pair.difference : -pair.difference,
    floor: pair.floor,
    commonShare: pair.commonShare,
    foretold:
      pair === straight || foretold === null
        ? foretold
        : {
            ...foretold,
            first: foretold.second,
            second: foretold.first,
            firstVariance: foretold.secondVariance,
            secondVariance: foretold.firstVariance,
          },
    firstAway: awayOf(a, section),
    secondAway: awayOf(b, section),
  };
}

function awayOf({ told, recording }: Member, section: string | null): number {
  const row = told.get(section)?.rows.get(recording);
  return row && row.referenceLength > 0 ? row.offRoute / row.referenceLength : 0;
}
