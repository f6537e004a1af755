import { correlatedOffsets, meanAbsoluteOf } from './correlatedOffsets';

/** Errors a second apart, by how they come about, and the mean distance they truly have. */
export interface NoiseModel {
  readonly what: string;
  readonly offsets: (draw: Draw, seconds: number, correlation: number) => Float64Array;
  readonly meanAbsolute: number;
  /** Their true mean. */
  readonly bias: number;
}

/** Seeded numbers: normal of mean 0 and standard deviation 1, and uniform between 0 and 1. */
export interface Draw {
  readonly normal: () => number;
  readonly uniform: () => number;
}

const SIGMA = 5;

/** A second-hand walk through the Ornstein–Uhlenbeck process of standard deviation 1 at any instants. */
function process({ normal }: Draw, instants: readonly number[], correlation: number): number[] {
  let value = normal();
  return instants.map((instant, i) => {
    if (i > 0) {
      const keep = Math.exp((instants[i - 1] - instant) / correlation);
      value = keep * value + Math.sqrt(1 - keep * keep) * normal();
    }
    return value;
  });
}

const everySecond = (seconds: number) => Array.from({ length: seconds }, (_, i) => i);

/** Bursts: 10 m to one side for 15 s, every 75 s on average, both durations exponential. */
const BURST = { offset: 10, on: 15, off: 60 };
const burstShare = BURST.on / (BURST.on + BURST.off);

/** Fixes half a second to three and a half apart, joined by straight lines. */
function irregular(draw: Draw, seconds: number, offsetsAt: (instants: number[]) => number[]): Float64Array {
  const instants: number[] = [];
  for (let instant = 0; instants.length < 2 || instant < seconds; instant += 0.5 + 3 * draw.uniform()) {
    instants.push(instant);
  }
  const given = offsetsAt(instants);
  let after = 1;
  return Float64Array.from(everySecond(seconds), (second) => {
    while (after < instants.length - 1 && instants[after] < second) after++;
    const fraction = Math.min(1, (second - instants[after - 1]) / (instants[after] - instants[after - 1]));
    return given[after - 1] + fraction * (given[after] - given[after - 1]);
  });
}

function bursts({ uniform }: Draw, instants: readonly number[]): number[] {
  const wait = (mean: number) => -mean * Math.log(1 - uniform());
  let out = uniform() < burstShare;
  let change = wait(out ? BURST.on : BURST.off);
  return instants.map((instant) => {
    while (instant >= change) {
      out = !out;
      change += wait(out ? BURST.on : BURST.off);
    }
    return out ? BURST.offset : 0;
  });
}

const folded = (bias: number) => meanAbsoluteOf(bias, SIGMA);

/** Forgetting themselves exponentially: a first-order autoregression. */
export const exponential: NoiseModel = {
  what: 'exponential',
  offsets: ({ normal }, seconds, correlation) => correlatedOffsets(normal, { seconds, correlation, sigma: SIGMA }),
  meanAbsolute: folded(0),
  bias: 0,
};

/** None of them is the first-order autoregression that the other tables use. */
export const noiseModels: readonly NoiseModel[] = [
  {
    what: 'irregular fixes, bursts of 10 m for 15 s',
    offsets: (draw, seconds, correlation) =>
      irregular(draw, seconds, (instants) => {
        const out = bursts(draw, instants);
        return process(draw, instants, correlation).map((value, i) => SIGMA * value + out[i]);
      }),
    meanAbsolute: burstShare * folded(BURST.offset) + (1 - burstShare) * folded(0),
    bias: burstShare * BURST.offset,
  },
  {
    what: 'smooth: second order, critically damped',
    offsets: ({ normal }, seconds, correlation) => {
      // its correlation (1 + t/T) e^(−t/T) is 1/e at t = 2.146 T
      const keep = Math.exp(-2.146 / correlation);
      const warmUp = Math.ceil(6 * correlation);
      const column = new Float64Array(seconds);
      let inner = normal();
      let outer = 0;
      for (let i = -warmUp; i < seconds; i++) {
        inner = keep * inner + Math.sqrt(1 - keep * keep) * normal();
        outer = keep * outer + (1 - keep) * inner;
        if (i >= 0) column[i] = outer;
      }
      // variance of two such filters one after the other
      const spread = ((1 - keep) / (1 + keep)) * ((1 + keep * keep) / (1 - keep * keep));
      return column.map((value) => (SIGMA * value) / Math.sqrt(spread));
    },
    meanAbsolute: folded(0),
    bias: 0,
  },
  {
    what: 'biased by 4 m',
    offsets: (draw, seconds, correlation) =>
      Float64Array.from(process(draw, everySecond(seconds), correlation), (value) => 4 + SIGMA * value),
    meanAbsolute: folded(4),
    bias: 4,
  },
  {
    what: 'heavy tails: the spread itself wanders by 40 %',
    offsets: (draw, seconds, correlation) => {
      const scale = process(draw, everySecond(seconds), correlation);
      return Float64Array.from(
        process(draw, everySecond(seconds), correlation),
        (value, i) => SIGMA * value * Math.exp(0.4 * scale[i]),
      );
    },
    // mean of a log-normal
    meanAbsolute: folded(0) * Math.exp(0.08),
    bias: 0,
  },
];
