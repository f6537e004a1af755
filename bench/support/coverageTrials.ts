import { judgePairs } from '../../src/assess/judgePairs';
import { blockInterval } from '../../src/statistics/blockInterval';
import { correlatedOffsets, meanAbsoluteOf, normals } from '../../test/support/correlatedOffsets';
import type { NoiseModel } from '../../test/support/noiseModels';
import { seeded } from '../../test/support/randomLine';

interface Cell {
  readonly seed: number;
  readonly seconds: number;
  readonly correlation: number;
  readonly trials: number;
}

const SIGMA = 5;
const NORMAL95 = 1.959964;

/** Share of simulated sections whose interval holds the true mean distance: ours, and the one that counts fixes. */
export function intervalTrial({ seed, seconds, correlation, trials }: Cell): { ours: number; naive: number } {
  const normal = normals(seed);
  const truth = meanAbsoluteOf(0, SIGMA);
  let ours = 0;
  let naive = 0;
  for (let trial = 0; trial < trials; trial++) {
    const values = correlatedOffsets(normal, { seconds, correlation, sigma: SIGMA }).map(Math.abs);
    const interval = blockInterval(values, new Float64Array(seconds).fill(1));
    if (interval && interval.interval95[0] <= truth && truth <= interval.interval95[1]) ours++;
    const { mean, half } = counted(values);
    if (Math.abs(mean - truth) <= half) naive++;
  }
  return { ours: ours / trials, naive: naive / trials };
}

/** Share of sections simulated another way whose interval holds the true mean distance. */
export function modelTrial({ seed, seconds, correlation, trials }: Cell, model: NoiseModel): number {
  const draw = { normal: normals(seed), uniform: seeded(seed + 1) };
  const weights = new Float64Array(seconds).fill(1);
  let held = 0;
  for (let trial = 0; trial < trials; trial++) {
    const interval = blockInterval(model.offsets(draw, seconds, correlation).map(Math.abs), weights);
    const [low, high] = interval?.interval95 ?? [Number.NaN, Number.NaN];
    if (low <= model.meanAbsolute && model.meanAbsolute <= high) held++;
  }
  return held / trials;
}

/** Share of simulated sections on which two identical receivers are called different. */
export function winnerTrial({ seed, seconds, correlation, trials }: Cell): { ours: number; naive: number } {
  const normal = normals(seed);
  let ours = 0;
  let naive = 0;
  for (let trial = 0; trial < trials; trial++) {
    const a = correlatedOffsets(normal, { seconds, correlation, sigma: SIGMA });
    const b = correlatedOffsets(normal, { seconds, correlation, sigma: SIGMA });
    const difference = a.map((value, i) => Math.abs(value) - Math.abs(b[i]));
    const interval = blockInterval(difference, new Float64Array(seconds).fill(1));
    // the floor of half a metre that every pair has
    const [pair] = judgePairs(
      [
        {
          first: 'a',
          second: 'b',
          section: null,
          difference: interval?.mean ?? null,
          interval95: interval?.interval95 ?? null,
          commonShare: 1,
          floor: 0.5,
          pValue: interval?.pValue ?? null,
          effectiveSamples: interval?.effectiveSamples ?? null,
          correlation: null,
          commonModeShare: null,
          apart: null,
          between: null,
          lengthDifference: null,
          moved: [],
        },
      ],
      1,
      () => undefined,
    );
    if (pair.verdict === 'closer') ours++;
    const { mean, half } = counted(difference);
    if (Math.abs(mean) > half) naive++;
  }
  return { ours: ours / trials, naive: naive / trials };
}

/** The interval of somebody who takes neighbours for independent. */
function counted(values: Float64Array): { mean: number; half: number } {
  const n = values.length;
  const mean = values.reduce((sum, value) => sum + value / n, 0);
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2 / (n - 1), 0);
  return { mean, half: NORMAL95 * Math.sqrt(variance / n) };
}
