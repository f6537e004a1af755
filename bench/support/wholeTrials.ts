import { assess, combine, direct, type Recording, routeBuilder } from 'datumline';
import { besideRoute, type FixBeside } from '../../test/support/besideRoute';
import { correlatedOffsets, meanAbsoluteOf, normals } from '../../test/support/correlatedOffsets';

/**
 * In which way the second receiver is worse:
 *
 * - `further`: as the first, and everywhere so many metres further off on the side where it is
 * - `scatter`: its errors are greater
 * - `aside`: it lies steadily to the right
 */
export type Worse = 'further' | 'scatter' | 'aside';

interface WholeTrial {
  readonly seed: number;
  readonly trials: number;
  readonly worse: Worse;
  /** True difference of the mean distances, metres. */
  readonly difference: number;
  readonly seconds?: number;
  readonly correlation?: number;
  readonly runs?: number;
}

const SIGMA = 5;
const START: [number, number] = [2.1, 61.4];
/** Metres a second, and seconds between fixes: errors go by the second, so that a short route does for a long time. */
const SPEED = 1;
const INTERVAL = 1;

/**
 * Tests of two receivers over several runs, each run placed, assessed and combined with the rest: the verdicts on the whole
 * route, and the spread between runs of their differences, whose mean is `seen`.
 */
export function wholeTrial(options: WholeTrial): { found: number; wrong: number; sd: number; seen: number } {
  const { seed, trials, worse, difference, seconds = 900, correlation = 30, runs = 3 } = options;
  const normal = normals(seed);
  const route = routeBuilder()
    .start(START)
    .lineTo(direct(START, 90, SPEED * seconds).position)
    .build();
  const aside = biasFor(difference);
  const scatter = 1 + difference / meanAbsoluteOf(0, SIGMA);
  const errors = () => correlatedOffsets(normal, { seconds: seconds + 1, correlation, sigma: SIGMA });
  const record = (name: string, worsen: (offset: number) => number): Recording => {
    const [right, along] = [errors(), errors()];
    const fixes: FixBeside[] = [];
    for (let i = 0; i <= seconds; i += INTERVAL) {
      const place = Math.min(route.length, Math.max(0, SPEED * i + along[i] / 5));
      fixes.push({ along: place, right: worsen(right[i]), seconds: i });
    }
    return besideRoute(route, name, fixes);
  };
  const worsened = {
    further: (offset: number) => offset + Math.sign(offset) * difference,
    scatter: (offset: number) => scatter * offset,
    aside: (offset: number) => offset + aside,
  }[worse];
  let found = 0;
  let wrong = 0;
  let variance = 0;
  let seen = 0;
  for (let trial = 0; trial < trials; trial++) {
    const assessments = Array.from({ length: runs }, () =>
      assess(route, [record('good', (offset) => offset), record('worse', worsened)]),
    );
    const pair = combine(assessments).pairs.at(-1)!;
    if (pair.closer === 'good') found++;
    if (pair.closer === 'worse') wrong++;
    seen -= pair.difference! / trials;
    variance += pair.betweenRunSd! ** 2 / trials;
  }
  return { found: found / trials, wrong: wrong / trials, sd: Math.sqrt(variance), seen };
}

/** The bias that makes the mean distance so much greater: found by halving. */
function biasFor(difference: number): number {
  let low = 0;
  let high = 50;
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (meanAbsoluteOf(middle, SIGMA) - meanAbsoluteOf(0, SIGMA) < difference) low = middle;
    else high = middle;
  }
  return low;
}
