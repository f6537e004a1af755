import { type Scatter, WAVES } from './CosineWaves';
import { exponentialMemory, type MemoryShape } from './exponentialMemory';

/** No more waves than these speak of the mean: the spectrum falls, and the fall is only divided out as it is thought to be. */
const MOST_WAVES = 24;
/** Weight of what all columns of the stretch say of a column's long-run variance. */
const POOLED = 0.75;
/** Many receivers share the doubt about the memory: beyond so many times a column's own degrees, no more are gained. */
const MOST_POOLED = 3;

/**
 * How far the means of columns of one stretch are off by chance, read off the slow waves of all of them together.
 *
 * Errors of neighbouring fixes are correlated, and what a mean is off by is the slowest part of them. Each column alone
 * shows little of that: a few waves. But receivers carried together over the same stretch forget alike; so the memory, and
 * the ratio of the variance of the mean to that of the column, are read off all of them.
 *
 * - memory θ, see `memoryOf`: effective samples n = 1 ÷ the variance of the mean of such a process of variance 1
 * - a column's own long-run variance: the mean over the first B = n^⅔ waves of aⱼ², each brought to the mean's by the shape
 * - moderated: the greater of it and ¼ of it + ¾ of what the columns' common ratio makes of its variance
 * - degrees of freedom ν = B ÷ [(¼ + ¾/K)² + (K − 1)(¾/K)²] with K columns, 3 B at most
 *
 * @see Lazarus, Lewis, Stock, Watson, HAR inference, J. Bus. Econ. Stat. 36 (2018) 541, for t with B equal-weighted cosines;
 * Smyth (2004) for moderated variances; the shape's division, the share of 0.3 and the greater of two are our own, by the
 * simulations that `bench/verdicts.ts` prints
 */
export class JointScatter {
  /** As many independent samples would tell as much of a mean. */
  readonly samples: number;
  /** Degrees of freedom for Student's t. */
  readonly degrees: number;
  readonly #shape: MemoryShape;
  readonly #used: number;
  /** Long-run variance over variance, mean over the columns. */
  readonly #ratio: number;

  /** @param memory as a share of the stretch: see {@link memoryOf} */
  constructor(columns: readonly Scatter[], memory: number) {
    const moving = columns.filter(({ variance }) => variance > 0);
    const waves = Math.min(WAVES, ...moving.map((column) => column.waves.length));
    this.#shape = exponentialMemory(memory, waves);
    this.samples = 1 / this.#shape.mean;
    this.#used = Math.min(MOST_WAVES, waves, Math.max(1, Math.round(this.samples ** (2 / 3))));
    const together = Math.max(1, moving.length);
    const shared = POOLED / together;
    const pooled = 1 / ((1 - POOLED + shared) ** 2 + (together - 1) * shared ** 2);
    this.degrees = Math.max(1, this.#used) * Math.min(MOST_POOLED, pooled);
    const ratios = moving.map((column) => this.#own(column) / column.variance);
    this.#ratio = ratios.reduce((sum, ratio) => sum + ratio / together, 0) || this.#shape.mean;
  }

  /** Variance of the column's mean, in the square of its unit. */
  varianceOf(column: Scatter): number {
    const own = this.#own(column);
    return Math.max(own, (1 - POOLED) * own + POOLED * this.#ratio * column.variance);
  }

  #own({ waves }: Scatter): number {
    let sum = 0;
    const used = Math.min(this.#used, waves.length);
    for (let j = 0; j < used; j++) sum += waves[j] ** 2 / this.#shape.waves[j];
    return used > 0 ? (sum * this.#shape.mean) / used : 0;
  }
}
