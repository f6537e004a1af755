import { LEAST_SAMPLES, wideningOf } from '../assess';
import { checkMembers, checkNumber, type MemberKeys, type PositiveSize, type Share, type Size } from '../model';
import {
  type ComparedPair,
  CosineWaves,
  correctedPairs,
  foldedMemory,
  JointScatter,
  memoryOf,
  runsJoined,
  seededNormals,
  studentWithin,
} from '../statistics';

/** A test as planned: one stretch, travelled some times with some receivers. */
export interface TestPlan {
  /** Standard deviation in metres of a receiver's offset from the line. */
  readonly sigma: PositiveSize;
  /** Seconds after which 1/e of an error is left. */
  readonly correlationTime: PositiveSize;
  /** Seconds spent on the stretch in a run. */
  readonly seconds: PositiveSize;
  /** Receivers carried at once, 2 to 20. @defaultValue 2 */
  readonly receivers?: number;
  /** Times that the stretch is travelled, 1 to 200. @defaultValue 1 */
  readonly runs?: number;
  /** Metres by which one receiver's mean distance is greater than that of the others, which are alike. */
  readonly difference: PositiveSize;
  /** Standard deviation in metres of a receiver's mean distance between runs, beyond what its scatter explains. @defaultValue 0 */
  readonly betweenRuns?: Size;
  /** Metres by which a receiver may be off the line the body travels: no smaller difference is claimed. @defaultValue 0.5 */
  readonly leverArm?: Size;
}

/** What a planned test could find. */
export interface PlannedTest {
  /** Chance that the worse receiver is told from a given other one, after the correction over all pairs. */
  readonly chance: Share;
  /** Runs with which it is told four times in five; null if over 200. */
  readonly runsNeeded: number | null;
  /** Metres of difference told four times in five with as many runs as planned; null where the stretch is too short to tell any so often. */
  readonly detectable: Size | null;
  /** As many independent samples tell as much of a run's mean distance. */
  readonly effectiveSamples: Size;
}

const planKeys: MemberKeys<TestPlan> = {
  sigma: 'must',
  correlationTime: 'must',
  seconds: 'must',
  receivers: 'may',
  runs: 'may',
  difference: 'must',
  betweenRuns: 'may',
  leverArm: 'may',
};

/** Found so often, a difference counts as one that the test finds. */
const OFTEN = 0.8;
const MOST_RUNS = 200;

/**
 * The chance that a test finds a difference between receivers, and how many runs it takes: to be asked before anything is
 * carried anywhere.
 *
 * Errors are taken for normal, without bias, forgetting themselves exponentially; the stretch for covered whole. The method of
 * `assess` (with one run) or `combine` (with more) is then applied to 1499 drawn tests: their slow waves, the memory read
 * off these, the limits, the correction over the pairs. Drawn from a fixed seed: the same plan gives the same answer.
 *
 * @throws {InputError} `missing`, `unknown-key`, `wrong-type`, `not-finite` or `out-of-range`, naming the member
 *
 * @remarks Within 5 points of what simulated recordings give, as the table in docs/verdicts.md shows. Half a second with two or three receivers, some
 * seconds with six and more.
 *
 * @example
 * planTest({ sigma: 5, correlationTime: 30, seconds: 600, difference: 7 }) // → { runsNeeded: 1 }
 * planTest({ sigma: 5, correlationTime: 30, seconds: 600, receivers: 3, runs: 3, difference: 4 }).chance > 0.8 // → true
 * planTest({ sigma: 0, correlationTime: 30, seconds: 600, difference: 5 }) // throws out-of-range: plan.sigma must be
 */
export function planTest(plan: TestPlan): PlannedTest {
  checkMembers<TestPlan>(plan, planKeys, 'plan');
  const above = (key: 'sigma' | 'correlationTime' | 'seconds' | 'difference') =>
    checkNumber(plan[key], `plan.${key}`, { above: 0, min: 1e-9, max: 1e9 });
  const [sigma, correlationTime, seconds, difference] = [
    above('sigma'),
    above('correlationTime'),
    above('seconds'),
    above('difference'),
  ];
  const { receivers = 2, runs = 1, betweenRuns = 0, leverArm = 0.5 } = plan;
  checkNumber(receivers, 'plan.receivers', { min: 2, max: 20, integer: true });
  checkNumber(runs, 'plan.runs', { min: 1, max: MOST_RUNS, integer: true });
  checkNumber(betweenRuns, 'plan.betweenRuns', { min: 0, max: 1e9 });
  checkNumber(leverArm, 'plan.leverArm', { min: 0, max: 1e9 });

  const mean = sigma * Math.sqrt(2 / Math.PI);
  const folded = foldedMemory(seconds / correlationTime);
  const drawn = drawRuns(seconds / correlationTime, receivers, betweenRuns / mean);
  const floor = leverArm / mean;
  const chanceOf = (metres: number, count: number) =>
    chanceIn(drawn, receivers, count, Math.log1p(metres / mean), floor);

  let runsNeeded: number | null = null;
  for (
    let low = 0, high = 1;
    high <= MOST_RUNS;
    low = high, high = Math.min(2 * high, high === MOST_RUNS ? 201 : MOST_RUNS)
  ) {
    if (chanceOf(difference, high) < OFTEN) continue;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (chanceOf(difference, middle) < OFTEN) low = middle;
      else high = middle;
    }
    runsNeeded = high;
    break;
  }
  return {
    chance: chanceOf(difference, runs),
    runsNeeded,
    detectable: detectableBy((metres) => chanceOf(metres, runs), mean),
    effectiveSamples: folded.samples,
  };
}

/** The least difference told often enough; null where not even one of a thousand times the mean is. */
function detectableBy(chanceOf: (metres: number) => number, mean: number): number | null {
  let low = 0;
  let high = mean;
  while (chanceOf(high) < OFTEN) {
    low = high;
    high *= 2;
    if (high > 1000 * mean) return null;
  }
  for (let i = 0; i < 8; i++) {
    const middle = (low + high) / 2;
    if (chanceOf(middle) < OFTEN) low = middle;
    else high = middle;
  }
  return high;
}

/** One run as drawn: what each receiver's logarithm is off by, and what is foretold of every two. */
interface DrawnRun {
  readonly logs: Float64Array;
  /** Variance of the logarithm of each pair's ratio, in the order of {@link everyTwo}. */
  readonly variances: Float64Array;
  readonly degrees: number;
  readonly samples: number;
}

const everyTwo = (count: number) =>
  Array.from({ length: count }, (_, first) => first).flatMap((first) =>
    Array.from({ length: count - first - 1 }, (_, k) => ({ first, second: first + 1 + k })),
  );

/** Runs drawn, and tests made of them: a prime of which 3 doesn't divide the one before, so that no two numbers have one cube. */
const DRAWN = 1499;

/** A column has at least so many entries, eight to what errors last, and no more than are pooled anyway. */
const LEAST_ENTRIES = 64;
const MOST_ENTRIES = 512;

/** Runs of receivers that are alike, judged as they would be. */
function drawRuns(memories: number, receivers: number, betweenRuns: number): DrawnRun[] {
  const normal = seededNormals(20_231);
  const entries = Math.min(MOST_ENTRIES, Math.max(LEAST_ENTRIES, Math.ceil(8 * memories)));
  const kept = Math.exp(-memories / entries);
  const fresh = Math.sqrt(1 - kept * kept);
  const width = new Float64Array(entries).fill(1);
  const draw = () => {
    let error = normal();
    return width.map(() => {
      error = kept * error + fresh * normal();
      return Math.abs(error);
    });
  };
  const pairs = everyTwo(receivers);
  const runs = Array.from({ length: DRAWN }, (): DrawnRun => {
    const columns = Array.from({ length: receivers }, draw);
    const waves = columns.map((column) => new CosineWaves(column, width));
    const scatters = waves.map((one) => one.relative());
    const judge = new JointScatter(scatters, memoryOf(scatters));
    const apart = ({ first, second }: { first: number; second: number }) => ({
      variance: new CosineWaves(
        columns[first].map((value, i) => value / waves[first].mean - columns[second][i] / waves[second].mean),
        width,
      ).variance,
      waves: scatters[first].waves.map((wave, j) => wave - scatters[second].waves[j]),
    });
    return {
      logs: Float64Array.from(waves, ({ mean }) => Math.log(mean) + betweenRuns * normal()),
      variances: Float64Array.from(pairs, (pair) => judge.varianceOf(apart(pair))),
      degrees: judge.degrees,
      samples: judge.samples,
    };
  });
  // what all tests have in common is no scatter: over the runs drawn the receivers are alike
  for (let k = 0; k < receivers; k++) {
    const common = runs.reduce((sum, { logs }) => sum + logs[k] / DRAWN, 0);
    for (const { logs } of runs) logs[k] -= common;
  }
  return runs;
}

/** Share of tests of so many of the drawn runs in which the last receiver, so many times further off, is told from the first. */
function chanceIn(drawn: readonly DrawnRun[], receivers: number, runs: number, ratio: number, floor: number): number {
  const pairs = everyTwo(receivers);
  const worse = receivers - 1;
  const asked = pairs.findIndex(({ first, second }) => first === 0 && second === worse);
  let found = 0;
  // by cubes no run comes twice in a test, and hardly two tests share one next to the same others
  const take = (test: number, run: number) => drawn[(test + 7 * run ** 3) % DRAWN];
  for (let test = 0; test < drawn.length; test++) {
    const taken = Array.from({ length: runs }, (_, run) => take(test, run));
    const differenceOf = ({ first, second }: Omit<ComparedPair, 'pValue'>) =>
      taken.map(({ logs }) => logs[second] - logs[first] + (second === worse ? ratio : 0));
    const pValues = (runs === 1 ? withinRun : overRuns)(taken, pairs.map(differenceOf), pairs);
    if (!((pValues[asked] ?? 1) <= 0.05)) continue;
    const seen = differenceOf(pairs[asked]).reduce((sum, one) => sum + one / runs, 0);
    // the floor is in metres: as a share of the mean, that of the closer one
    if (!(Math.expm1(seen) > floor)) continue;
    const compared = pairs.map((pair, i) => ({ ...pair, pValue: pValues[i] }));
    if ((correctedPairs(compared, receivers)[asked].adjusted ?? 1) <= 0.05) found++;
  }
  return found / drawn.length;
}

type Tester = (
  runs: readonly DrawnRun[],
  differences: readonly (readonly number[])[],
  pairs: readonly { readonly first: number; readonly second: number }[],
) => (number | null)[];

const withinRun: Tester = ([{ variances, degrees, samples }], differences) =>
  differences.map(([difference], i) =>
    samples < LEAST_SAMPLES
      ? null
      : 1 - studentWithin(difference / (Math.sqrt(variances[i]) * wideningOf.distance(samples)), degrees),
  );

const overRuns: Tester = (runs, differences, pairs) => {
  const count = runs.length;
  const known = runs.filter(({ samples }) => samples >= LEAST_SAMPLES);
  const told = differences.map((byRun, i) => {
    const mean = byRun.reduce((sum, one) => sum + one / count, 0);
    const squares = byRun.reduce((sum, one) => sum + (one - mean) ** 2 / (count - 1), 0);
    const foretold = known.reduce((sum, { variances }) => sum + variances[i] / known.length, 0);
    return { mean, squares, foretold, excess: squares / foretold };
  });
  return told.map(({ mean, squares, foretold, excess }, i) => {
    if (known.length < count) return 1 - studentWithin(mean / Math.sqrt(squares / count), count - 1);
    const { first, second } = pairs[i];
    const others = told.flatMap((other, k) =>
      k !== i && [pairs[k].first, pairs[k].second].some((one) => one === first || one === second) ? [other.excess] : [],
    );
    const { variance, degrees } = runsJoined(count, foretold, [excess, ...others]);
    return 1 - studentWithin(mean / Math.sqrt(variance), degrees);
  });
};
