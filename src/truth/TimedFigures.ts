import { mean, quantileSorted } from 'd3-array';
import { type BinRange, type ChanceMean, LEAST_SAMPLES, RunScatter, wideningOf } from '../assess';
import { type CircularError, circularError } from '../metrics';
import { type Interval, meanLimits, studentQuantile } from '../statistics';
import { percentileLimits } from './percentileLimits';
import type { SecondColumns } from './SecondColumns';
import type { ErrorFigure, ErrorFigures } from './TimedAssessment';

const components = ['horizontal', 'along', 'across', 'up'] as const;
type Component = (typeof components)[number];
const figures = ['mean', 'sd', 'rms', 'p50', 'p68', 'p75', 'p95', 'max'] as const;
const percentiles = { p50: 0.5, p68: 0.68, p75: 0.75, p95: 0.95 } as const;

/** Limits of a deviation about a mean that is itself a guess are so much wider: found by simulation, see bench/clock.ts. */
const SD_WIDER = 1.15;

/** Scatter by component; where nobody has one, none. */
type Scatters = Readonly<Partial<Record<Component, RunScatter>>>;

/** Figures of the errors of one run's recordings in any stretch of time that is made of parts. */
export class TimedFigures {
  readonly #columns: readonly SecondColumns[];
  readonly #parts: readonly BinRange[];
  readonly #width: Float64Array;
  /** Of the errors, and of their squares. */
  readonly #scatter: Scatters;
  readonly #squares: Scatters;
  /** Of the squares about each one's mean, by stretch: the mean is the stretch's. */
  readonly #deviations = new Map<string, Scatters>();

  constructor(columns: readonly SecondColumns[], parts: readonly BinRange[]) {
    this.#columns = columns;
    this.#parts = parts;
    this.#width = new Float64Array(columns[0].horizontal.length).fill(1);
    this.#scatter = this.#scatters(
      parts,
      (column) => column,
      (component) => (component === 'horizontal' ? 'relative' : 'plain'),
    );
    this.#squares = this.#scatters(
      parts,
      (column) => column.map((value) => value * value),
      () => 'relative',
    );
  }

  /** @param doubt - metres below which nothing is resolved; 0 where none is stated */
  figures(recording: number, range: BinRange, doubt: number): ErrorFigures {
    const columns = this.#columns[recording];
    const of = (component: Component) => this.#figure(component, recording, range, doubt);
    const [east, north] = [columns.east, columns.north].map((column) => known(column, range));
    const circular = east.length > 0 ? circularError(east, north, { axes: 'principal' }) : undefined;
    return {
      horizontal: of('horizontal'),
      along: of('along'),
      across: of('across'),
      up: of('up'),
      cep50: circular?.cep50 ?? null,
      ce95: circular?.ce95 ?? null,
      circularIntervals95: circular ? this.#circles(recording, range, circular) : null,
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

  /** The radii grow as the root of the mean square does. */
  #circles(recording: number, range: BinRange, { cep50, ce95 }: CircularError): ErrorFigures['circularIntervals95'] {
    const squares = this.#squares.horizontal?.mean(recording, range);
    if (!squares || squares.samples < LEAST_SAMPLES) return null;
    return { cep50: rootLimits(cep50, squares), ce95: rootLimits(ce95, squares) };
  }

  #figure(component: Component, recording: number, range: BinRange, doubt: number): ErrorFigure | null {
    const values = known(this.#columns[recording][component], range);
    if (values.length === 0) return null;
    const told = distributionOf(values);
    return {
      ...told,
      interval95: this.#interval(component, recording, range),
      intervals95: this.#spreads(component, recording, range, told, values),
      degrees: this.#degrees(component, recording, range),
      unresolved: figures.filter((name) => Math.abs(told[name]) < doubt),
    };
  }

  #degrees(component: Component, recording: number, range: BinRange): ErrorFigure['degrees'] {
    const mean = this.#scatter[component]?.mean(recording, range)?.degrees;
    const spread = this.#squares[component]?.mean(recording, range)?.degrees;
    return mean === undefined || spread === undefined ? null : { mean, spread };
  }

  /** Of the mean. */
  #interval(component: Component, recording: number, range: BinRange): Interval | null {
    const chance = this.#scatter[component]?.mean(recording, range);
    if (chance === undefined || chance.samples < LEAST_SAMPLES) return null;
    const quantile = studentQuantile(0.95, chance.degrees);
    if (component === 'horizontal') {
      return meanLimits(chance.mean, chance.variance, quantile * wideningOf.distance(chance.samples));
    }
    const half = quantile * wideningOf.offset(chance.samples) * Math.sqrt(chance.variance);
    return [chance.mean - half, chance.mean + half];
  }

  /** Of what tells of the spread; `sizes` are sorted. */
  #spreads(
    component: Component,
    recording: number,
    range: BinRange,
    told: Distribution,
    sizes: Float64Array,
  ): ErrorFigure['intervals95'] {
    const squares = this.#squares[component]?.mean(recording, range);
    const deviations = this.#deviationsIn(range)[component]?.mean(recording, range);
    const slow = this.#scatter[component]?.mean(recording, range);
    if (!squares || !deviations || !slow || Math.min(squares.samples, slow.samples) < LEAST_SAMPLES) return null;
    const of = (share: number) => percentileLimits(sizes, share, squares);
    return {
      // about its own mean a short stretch scatters less than about the true one
      sd: rootLimits(told.sd * Math.sqrt(slow.samples / (slow.samples - 1)), deviations, SD_WIDER),
      rms: rootLimits(told.rms, squares),
      p50: of(percentiles.p50),
      p68: of(percentiles.p68),
      p75: of(percentiles.p75),
      p95: of(percentiles.p95),
    };
  }

  #deviationsIn(range: BinRange): Scatters {
    const key = `${range.first} ${range.end}`;
    let found = this.#deviations.get(key);
    if (found === undefined) {
      const parts = this.#parts.filter(({ first, end }) => first >= range.first && end <= range.end);
      found = this.#scatters(
        parts,
        (column) => {
          const own = mean(column.subarray(range.first, range.end)) ?? 0;
          const squares = new Float64Array(column.length);
          for (let k = 0; k < squares.length; k++) squares[k] = (column[k] - own) ** 2;
          return squares;
        },
        () => 'relative',
      );
      this.#deviations.set(key, found);
    }
    return found;
  }

  #scatters(
    parts: readonly BinRange[],
    of: (column: Float64Array) => Float64Array,
    scale: (component: Component) => 'relative' | 'plain',
  ): Scatters {
    return Object.fromEntries(
      components.flatMap((component) => {
        const mine = this.#columns.map((columns) => columns[component]);
        if (mine.every((column) => column.every(Number.isNaN))) return [];
        return [[component, new RunScatter(this.#width, mine.map(of), parts, scale(component))]];
      }),
    );
  }
}

/** Limits of the root of a mean of squares that found `root`, or of what grows with it. */
function rootLimits(root: number, squares: ChanceMean, wider = 1): Interval {
  const quantile = studentQuantile(0.95, squares.degrees) * wider * wideningOf.distance(squares.samples);
  const [low, high] = meanLimits(squares.mean, squares.variance, quantile);
  return squares.mean > 0
    ? [root * Math.sqrt(low / squares.mean), root * Math.sqrt(high / squares.mean)]
    : [root, root];
}

/** What there is of a column in a stretch. */
function known(column: Float64Array, { first, end }: BinRange): Float64Array {
  const values = new Float64Array(end - first);
  let n = 0;
  for (let k = first; k < end; k++) if (!Number.isNaN(column[k])) values[n++] = column[k];
  return values.subarray(0, n);
}

type Distribution = Omit<ErrorFigure, 'interval95' | 'intervals95' | 'degrees' | 'unresolved'>;

/** Moments of values and percentiles of their sizes (type 7 of Hyndman and Fan); they are sorted by size in place. */
function distributionOf(values: Float64Array): Distribution {
  const n = values.length;
  let sum = 0;
  for (let i = 0; i < n; i++) sum += values[i];
  const middle = sum / n;
  let spread = 0;
  let square = 0;
  for (let i = 0; i < n; i++) {
    spread += (values[i] - middle) ** 2;
    square += values[i] ** 2;
    values[i] = Math.abs(values[i]);
  }
  values.sort();
  const quantile = (share: number) => quantileSorted(values as ArrayLike<number> as number[], share)!;
  return {
    mean: middle,
    sd: n > 1 ? Math.sqrt(spread / (n - 1)) : 0,
    rms: Math.sqrt(square / n),
    p50: quantile(0.5),
    p68: quantile(0.68),
    p75: quantile(0.75),
    p95: quantile(0.95),
    max: values[n - 1],
  };
}
