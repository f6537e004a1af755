import { quantileSorted } from 'd3-array';
import { type BinRange, LEAST_SAMPLES, RunScatter, wideningOf } from '../assess';
import { circularError } from '../metrics';
import { type Interval, meanLimits, studentQuantile } from '../statistics';
import type { SecondColumns } from './SecondColumns';
import type { ErrorFigure, ErrorFigures } from './TimedAssessment';

const components = ['horizontal', 'along', 'across', 'up'] as const;
const figures = ['mean', 'sd', 'rms', 'p50', 'p68', 'p75', 'p95', 'max'] as const;

/** Figures of the errors of one run's recordings in any stretch of time that is made of parts. */
export class TimedFigures {
  readonly #columns: readonly SecondColumns[];
  readonly #scatter: Readonly<Partial<Record<(typeof components)[number], RunScatter>>>;

  constructor(columns: readonly SecondColumns[], parts: readonly BinRange[]) {
    this.#columns = columns;
    const width = new Float64Array(columns[0].horizontal.length).fill(1);
    this.#scatter = Object.fromEntries(
      components.flatMap((component) => {
        const mine = columns.map((column) => column[component]);
        if (mine.every((column) => column.every(Number.isNaN))) return [];
        return [[component, new RunScatter(width, mine, parts, component === 'horizontal' ? 'relative' : 'plain')]];
      }),
    );
  }

  /** @param doubt - metres below which nothing is resolved; 0 where none is stated */
  figures(recording: number, range: BinRange, doubt: number): ErrorFigures {
    const columns = this.#columns[recording];
    const of = (component: (typeof components)[number]) => this.#figure(component, recording, range, doubt);
    const [east, north] = [columns.east, columns.north].map((column) =>
      column.subarray(range.first, range.end).filter((value) => !Number.isNaN(value)),
    );
    const circular = east.length > 0 ? circularError(east, north, { axes: 'principal' }) : undefined;
    return {
      horizontal: of('horizontal'),
      along: of('along'),
      across: of('across'),
      up: of('up'),
      cep50: circular?.cep50 ?? null,
      ce95: circular?.ce95 ?? null,
    };
  }

  /**
   * As many independent samples would tell as much of the mean horizontal error; of `judged` seconds no more than these, however
   * soon errors are forgotten.
   */
  samples(recording: number, range: BinRange, judged: number): number | null {
    const chance = this.#scatter.horizontal?.mean(recording, range);
    return chance ? Math.min(judged, chance.samples) : null;
  }

  #figure(
    component: (typeof components)[number],
    recording: number,
    range: BinRange,
    doubt: number,
  ): ErrorFigure | null {
    const values = this.#columns[recording][component]
      .subarray(range.first, range.end)
      .filter((value) => !Number.isNaN(value));
    if (values.length === 0) return null;
    const told = distributionOf(values);
    return {
      ...told,
      interval95: this.#interval(component, recording, range),
      unresolved: figures.filter((name) => Math.abs(told[name]) < doubt),
    };
  }

  #interval(component: (typeof components)[number], recording: number, range: BinRange): Interval | null {
    const chance = this.#scatter[component]?.mean(recording, range);
    if (chance === undefined || chance.samples < LEAST_SAMPLES) return null;
    const quantile = studentQuantile(0.95, chance.degrees);
    if (component === 'horizontal') {
      return meanLimits(chance.mean, chance.variance, quantile * wideningOf.distance(chance.samples));
    }
    const half = quantile * wideningOf.offset(chance.samples) * Math.sqrt(chance.variance);
    return [chance.mean - half, chance.mean + half];
  }
}

/** Moments of values and percentiles of their sizes (type 7 of Hyndman and Fan); they are sorted by size in place. */
function distributionOf(values: Float64Array): Omit<ErrorFigure, 'interval95' | 'unresolved'> {
  const n = values.length;
  let sum = 0;
  for (let i = 0; i < n; i++) sum += values[i];
  const mean = sum / n;
  let spread = 0;
  let square = 0;
  for (let i = 0; i < n; i++) {
    spread += (values[i] - mean) ** 2;
    square += values[i] ** 2;
    values[i] = Math.abs(values[i]);
  }
  values.sort();
  const quantile = (share: number) => quantileSorted(values as ArrayLike<number> as number[], share)!;
  return {
    mean,
    sd: n > 1 ? Math.sqrt(spread / (n - 1)) : 0,
    rms: Math.sqrt(square / n),
    p50: quantile(0.5),
    p68: quantile(0.68),
    p75: quantile(0.75),
    p95: quantile(0.95),
    max: values[n - 1],
  };
}
