import { routeBuilder } from 'datumline';
import type { NamedPlaced } from '../../src/assess/NamedPlaced';
import { RouteGrid } from '../../src/assess/RouteGrid';
import { RunChances } from '../../src/assess/RunChances';
import { LEAST_SAMPLES, rowChances, wideningOf } from '../../src/assess/rowChances';
import { correctedPairs, differenceLimits, differencePValue, simes, studentQuantile } from '../../src/statistics';
import { normals } from '../../test/support/correlatedOffsets';
import { exponential, type NoiseModel } from '../../test/support/noiseModels';
import { seeded } from '../../test/support/randomLine';

/** Receivers carried over one section, a metre a second, their offsets simulated. */
export interface ColumnTrial {
  readonly seed: number;
  readonly trials: number;
  readonly seconds: number;
  readonly correlation: number;
  /** By receiver: how many times the errors of the model, and metres further off on the side where it is. */
  readonly scales: readonly number[];
  readonly further?: readonly number[];
  readonly model?: NoiseModel;
  /** By receiver, where they differ. */
  readonly correlations?: readonly number[];
  readonly equivalence?: number;
  /** Sections of one length, and how many times the errors of the model each has. */
  readonly sections?: readonly number[];
}

/** Shares of the trials with an interval; arrays by receiver, matrices by pair of receivers. */
export interface ColumnResult {
  /** Trials with an interval at all. */
  readonly given: number;
  /** Intervals of the mean distance and of the mean offset that hold the truth. */
  readonly held: readonly number[];
  readonly biasHeld: readonly number[];
  /** Half width of the logarithm's interval, mean. */
  readonly half: number;
  /** By pair `${i}-${k}`: told apart on its own, after correction, equivalent. */
  readonly alone: Readonly<Record<string, number>>;
  readonly found: Readonly<Record<string, number>>;
  readonly equivalent: Readonly<Record<string, number>>;
  /** Any pair told apart after correction; the overall test. */
  readonly any: number;
  readonly overall: number;
}

/** What the intervals and verdicts of a run make of simulated columns. */
export function columnTrial({
  seed,
  trials,
  seconds,
  correlation,
  scales,
  further = [],
  model = exponential,
  correlations = [],
  equivalence = 1,
  sections = [1],
}: ColumnTrial): ColumnResult {
  const draw = { normal: normals(seed), uniform: seeded(seed + 1) };
  const grid = straightGrid(seconds, sections.length);
  const harder = (i: number) => sections[Math.min(sections.length - 1, Math.floor((i * sections.length) / seconds))];
  const usual = sections.reduce((sum, times) => sum + times / sections.length, 0);
  const range = { first: 0, end: grid.count };
  const count = scales.length;
  const zeros = () => new Array<number>(count).fill(0);
  const sums = { given: 0, biasGiven: 0, held: zeros(), biasHeld: zeros(), half: 0, any: 0, overall: 0 };
  const pairs = scales.flatMap((_, first) =>
    scales.slice(first + 1).map((_s, k) => ({ first, second: first + 1 + k })),
  );
  const keyOf = ({ first, second }: { first: number; second: number }) => `${first}-${second}`;
  const counts = () => Object.fromEntries(pairs.map((pair) => [keyOf(pair), 0]));
  const [alone, found, equivalent] = [counts(), counts(), counts()];
  for (let trial = 0; trial < trials; trial++) {
    const offsets = scales.map((scale, k) =>
      model
        .offsets(draw, seconds, correlations[k] ?? correlation)
        .map((offset, i) => scale * harder(i) * offset + Math.sign(offset) * (further[k] ?? 0)),
    );
    const chances = new RunChances(
      grid,
      offsets.map((offset, k) => ({ name: `${k}`, placed: { offset } }) as unknown as NamedPlaced),
    );
    const rows = scales.map((_, k) => rowChances(chances, `${k}`, range));
    if (rows[0].biasInterval95) {
      sums.biasGiven++;
      rows.forEach(({ biasInterval95 }, k) => {
        const truth = scales[k] * usual * model.bias;
        if (biasInterval95![0] <= truth && truth <= biasInterval95![1]) sums.biasHeld[k]++;
      });
    }
    if (!rows[0].interval95) continue;
    sums.given++;
    rows.forEach(({ interval95 }, k) => {
      const truth = scales[k] * usual * model.meanAbsolute + (further[k] ?? 0);
      if (interval95![0] <= truth && truth <= interval95![1]) sums.held[k]++;
      sums.half += Math.log(interval95![1] / interval95![0]) / 2 / count;
    });
    const tested = pairs.map(({ first, second }) => {
      const chance = chances.distances(`${first}`, `${second}`, range)!;
      const widening = wideningOf.distance(chance.samples);
      if (!(chance.samples >= LEAST_SAMPLES)) return { first, second, pValue: null, interval90: [-1e9, 1e9] as const };
      return {
        first,
        second,
        pValue: differencePValue(chance, chance.degrees, widening),
        interval90: differenceLimits(chance, studentQuantile(0.9, chance.degrees) * widening),
      };
    });
    const corrected = correctedPairs(tested, count);
    tested.forEach((pair, i) => {
      if ((pair.pValue ?? 1) <= 0.05) alone[keyOf(pair)]++;
      if ((corrected[i].adjusted ?? 1) <= 0.05) found[keyOf(pair)]++;
      if (pair.interval90[0] > -equivalence && pair.interval90[1] < equivalence) equivalent[keyOf(pair)]++;
    });
    if (corrected.some(({ adjusted }) => (adjusted ?? 1) <= 0.05)) sums.any++;
    if ((simes(tested.map(({ pValue }) => pValue)) ?? 1) <= 0.05) sums.overall++;
  }
  const share = (value: number) => value / Math.max(1, sums.given);
  const shares = (values: Record<string, number>) =>
    Object.fromEntries(Object.entries(values).map(([key, value]) => [key, share(value)]));
  return {
    given: sums.given / trials,
    held: sums.held.map(share),
    biasHeld: sums.biasHeld.map((value) => value / Math.max(1, sums.biasGiven)),
    half: share(sums.half),
    alone: shares(alone),
    found: shares(found),
    equivalent: shares(equivalent),
    any: share(sums.any),
    overall: share(sums.overall),
  };
}

/** A straight route with a bin for each second, in sections of one length. */
export function straightGrid(seconds: number, sections = 1): RouteGrid {
  const length = (seconds - 1e-4 * sections) / sections;
  const builder = routeBuilder().start([2.1, 61.4]);
  for (let i = 0; i < sections; i++) builder.section(`${i}`).lineBy({ azimuth: 90, distance: length });
  return new RouteGrid(builder.build(), []);
}
