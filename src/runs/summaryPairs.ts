import {
  detectableMetres,
  type ForetoldPair,
  type Interval,
  isConfounded,
  type Pair,
  undecided,
  type Verdict,
  type VerdictLimit,
  verdictOf,
} from '../assess';
import type { Steps } from '../model';
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
import { type Carried, placements, type Run } from './summaryRuns';
import type { SummaryPair } from './TestSummary';

/** Beyond so many runs nobody goes. */
const MOST_RUNS = 200;

/** What of two recordings of one run the comparison over runs rests on. */
export type PairTold = Pick<Pair, 'difference' | 'floor' | 'commonShare' | 'foretold'> &
  Partial<Pick<Pair, 'sparseGain'>>;

/** How two receivers are compared on one section. */
export interface PairsOver<One extends Carried> {
  /** Metres within which a difference counts as none. */
  readonly equivalence: number;
  /** Metres between receivers and the line: of several lever arms the longest. */
  readonly leverArm: number;
  /** What a run says of two of its recordings, the first less the second; undefined where it says nothing. */
  readonly told: (first: One, second: One) => PairTold | undefined;
  /** Why no verdict rests on what the runs say, whatever it is; undefined where one may. */
  readonly cap: (
    candidate: Verdict,
    difference: number,
    runs: readonly { readonly first: One; readonly second: One; readonly told: PairTold }[],
  ) => VerdictLimit | undefined;
}

/** Every two receivers, or each with the baseline, on one section over the runs that have both: a rest after each. */
export function* summaryPairs<One extends Carried>(
  runs: readonly Run<One>[],
  receivers: readonly string[],
  section: string | null,
  baseline: string | null,
  { equivalence, leverArm, told, cap }: PairsOver<One>,
): Steps<SummaryPair[]> {
  const couples = receivers.flatMap((first, i) =>
    receivers
      .slice(i + 1)
      .flatMap((second) => (baseline === null || first === baseline || second === baseline ? [{ first, second }] : [])),
  );
  const found: (RunPair<One> | undefined)[][] = [];
  for (const { first, second } of couples) {
    found.push(
      runs.map(({ byReceiver }): RunPair<One> | undefined => {
        const [a, b] = [byReceiver.get(first), byReceiver.get(second)];
        const pair = a && b && told(a, b);
        return pair?.difference == null
          ? undefined
          : { first: a!, second: b!, told: pair, difference: pair.difference };
      }),
    );
    yield;
  }
  const known = found.map((byRun) => byRun.flatMap((pair) => pair ?? []));
  const excess = known.map(excessOf);
  const sharing = new Map<string, number[]>(receivers.map((receiver) => [receiver, []]));
  couples.forEach(({ first, second }, i) => {
    for (const receiver of [first, second]) sharing.get(receiver)!.push(i);
  });
  const tests: (RunsTest | null)[] = [];
  for (const [i, { first, second }] of couples.entries()) {
    // the pair's own excess, then those of pairs that share one of its receivers
    const own = excess[i];
    const others = () =>
      [...sharing.get(first)!, ...sharing.get(second)!]
        .filter((k) => k !== i)
        .sort((a, b) => a - b)
        .flatMap((k) => excess[k] ?? []);
    tests.push(overRuns(known[i], own === null ? null : [own, ...others()]));
    yield;
  }
  const numbers = new Map(receivers.map((receiver, i) => [receiver, i]));
  const corrected = correctedPairs(
    couples.map(({ first, second }, i) => ({
      first: numbers.get(first)!,
      second: numbers.get(second)!,
      pValue: tests[i]?.pValue ?? null,
    })),
    receivers.length,
  );
  const pairs: SummaryPair[] = [];
  for (const [i, { first, second }] of couples.entries()) {
    const byRun = found[i].map((pair) => pair?.difference ?? null);
    const differences = known[i].map(({ difference }) => difference);
    const spread = studentInterval(differences);
    const n = differences.length;
    const test = tests[i];
    const { adjusted: adjustedPValue, level } = corrected[i];
    const floor = Math.max(leverArm, ...known[i].map((pair) => pair.told.floor));
    const meanOf = (value: (pair: RunPair<One>) => number) => known[i].reduce((sum, pair) => sum + value(pair) / n, 0);
    const judge = ({ interval95, interval90 }: RunsTest) =>
      verdictOf(
        {
          difference: spread!.mean,
          interval95,
          interval90,
          floor,
          // of the runs in which the same one lay closer
          sparseGain: Math.max(
            0,
            ...known[i].flatMap(({ difference, told }) =>
              difference * spread!.mean > 0 ? (told.sparseGain ?? 0) : [],
            ),
          ),
          commonShare: meanOf((pair) => pair.told.commonShare),
          adjustedPValue,
        },
        equivalence,
        (candidate) =>
          isConfounded(placements(runs, first, second))
            ? { reason: 'unbalanced', message: 'The two were never swapped between places: the place may explain it.' }
            : cap(candidate, spread!.mean, known[i]),
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
      const decide = (count: number) =>
        metres(detectableRatio({ ...test!.over(count), level })) <= Math.abs(spread!.mean);
      if (!decide(n + MOST_RUNS)) return null;
      // what some runs find, more of them find too
      let [tooFew, enough] = [n, n + MOST_RUNS];
      while (enough - tooFew > 1) {
        const middle = (tooFew + enough) >> 1;
        if (decide(middle)) enough = middle;
        else tooFew = middle;
      }
      return enough - n;
    };
    pairs.push({
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
      insideAllowed: null,
    });
    yield;
  }
  return pairs;
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
function overRuns(pairs: readonly RunPair<Carried>[], excess: readonly number[] | null): RunsTest | null {
  if (pairs.length < 2) return null;
  const mean = (key: keyof ForetoldPair) => meanForetold(pairs, key);
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
  const { variance, degrees } = joined(pairs.length, mean('variance'));
  const means: TwoMeans = {
    first: mean('first'),
    second: mean('second'),
    firstVariance: joined(pairs.length, mean('firstVariance')).variance,
    secondVariance: joined(pairs.length, mean('secondVariance')).variance,
    variance,
  };
  return {
    interval95: differenceLimits(means, studentQuantile(0.95, degrees)),
    interval90: differenceLimits(means, studentQuantile(0.9, degrees)),
    pValue: differencePValue(means, degrees, 1),
    over: (runs) => ({
      ...runsJoined(runs, mean('variance'), likely),
      widening: 1,
    }),
    means,
  };
}

function meanForetold(pairs: readonly RunPair<Carried>[], key: keyof ForetoldPair): number {
  return pairs.reduce((sum, { told }) => sum + told.foretold![key] / pairs.length, 0);
}

/** By how much the ratios of the two spread between runs, over what the runs foretell of that; null where it can't be said. */
function excessOf(pairs: readonly RunPair<Carried>[]): number | null {
  const n = pairs.length;
  if (n < 2 || pairs.some(({ told }) => told.foretold === null)) return null;
  const [a, b, foretold] = [
    meanForetold(pairs, 'first'),
    meanForetold(pairs, 'second'),
    meanForetold(pairs, 'variance'),
  ];
  if (!(a > 0 && b > 0 && foretold > 0)) return null;
  const squares = pairs.reduce((sum, { told }) => sum + (told.foretold!.first / a - told.foretold!.second / b) ** 2, 0);
  return squares / (n - 1) / foretold;
}

/** Two recordings of one run that have a difference. */
interface RunPair<One> {
  readonly first: One;
  readonly second: One;
  readonly told: PairTold;
  readonly difference: number;
}

/** A pair as told the other way round. */
export function turnedPair({ difference, foretold, ...told }: PairTold): PairTold {
  return {
    ...told,
    difference: difference === null ? null : -difference,
    foretold: foretold && {
      ...foretold,
      first: foretold.second,
      second: foretold.first,
      firstVariance: foretold.secondVariance,
      secondVariance: foretold.firstVariance,
    },
  };
}
