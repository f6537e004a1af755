import { bisector } from 'd3-array';
import { CosineWaves, JointScatter, type KeptCosines, memoryOf, type Scatter, type TwoMeans } from '../statistics';
import type { BinRange } from './RouteGrid';

/** Recordings that cover at least this share of what the best covers of a part are judged together. */
const ALIKE_COVER = 0.8;
/** Two are judged with their company where they have this share of what each covers in common. */
const ALIKE_PAIR = 0.9;
/** A short part may show less memory than there is: it is taken to have at least this share of the run's. */
const LEAST_MEMORY = 0.5;
/** Who is judged alone, having less of a part, forgets no slower than so many times as the company there. */
const MOST_MEMORY = 2;

/** Scatter below a tenth of a millimetre is that of arithmetic. */
const STILL = 1e-4;

/** The mean of a column over a stretch and what it is off by. */
export interface ChanceMean {
  readonly mean: number;
  /** Variance of the mean by chance, in the square of its unit. */
  readonly variance: number;
  /** Degrees of freedom with which that is known. */
  readonly degrees: number;
  /** As many independent samples would tell as much of it. */
  readonly samples: number;
}

/** Two columns on the bins that both have; the variances relative, as {@link TwoMeans} wants them. */
export interface ChancePair extends TwoMeans {
  readonly degrees: number;
  readonly samples: number;
}

/** A part of the route, its columns' waves, and who is judged with whom. */
interface Part {
  readonly range: BinRange;
  readonly waves: readonly CosineWaves[];
  readonly company: readonly number[];
  readonly together: JointScatter;
  /** Memories between which that of whatever has less of the part is taken to be, as shares of the part. */
  readonly memory: { readonly least: number; readonly most: number };
  readonly pairs: Map<number, PairPart>;
}

/** Two columns in one part: means, relative variances of these, and what they err by in common. */
interface PairPart {
  readonly length: number;
  readonly meanA: number;
  readonly meanB: number;
  readonly varianceA: number;
  readonly varianceB: number;
  readonly covariance: number;
  readonly judge: JointScatter;
}

/**
 * What the means of one run's columns are off by, on any stretch made of parts of the route.
 *
 * Each part (between two ends of sections) is judged by itself, about its own means, by all recordings that cover it alike;
 * a stretch is the sum of its parts. One judgement over unlike parts would take their differences for chance.
 *
 * - `relative`: columns above 0 whose scatter grows with their mean, as distances do; judged as shares of it
 * - `plain`: any other
 */
export class RunScatter {
  readonly #width: Float64Array;
  readonly #columns: readonly Float64Array[];
  readonly #scale: 'relative' | 'plain';
  readonly #parts: readonly Part[];

  /** @param columns - by bin, NaN where there is none @param parts - in order, without gaps */
  constructor(
    width: Float64Array,
    columns: readonly Float64Array[],
    parts: readonly (BinRange & KeptCosines)[],
    scale: 'relative' | 'plain',
  ) {
    this.#width = width;
    this.#columns = columns;
    this.#scale = scale;
    const drafts = parts.map((range) => {
      const waves = columns.map((column) => this.#wavesOf(column, range));
      const longest = Math.max(0, ...waves.map(({ length }) => length));
      const company = waves.flatMap(({ length }, i) => (length > 0 && length >= ALIKE_COVER * longest ? [i] : []));
      const scatters = company.map((i) => this.#scatterOf(waves[i]));
      return { range, waves, company, scatters, length: longest, memory: memoryOf(scatters) };
    });
    const metres = drafts.reduce((sum, { length }) => sum + length, 0);
    // metres remembered, each part weighing by its length
    const memory = drafts.reduce((sum, part) => sum + (part.length ** 2 * part.memory) / metres, 0);
    this.#parts = drafts.map(({ range, waves, company, scatters, length, memory: own }) => {
      const least = length > 0 ? (LEAST_MEMORY * memory) / length : 0;
      const ofCompany = Math.max(own, least);
      const together = new JointScatter(scatters, ofCompany);
      return { range, waves, company, together, memory: { least, most: MOST_MEMORY * ofCompany }, pairs: new Map() };
    });
  }

  /** The mean of a column over a stretch; undefined where it has nothing there. */
  mean(column: number, stretch: BinRange): ChanceMean | undefined {
    const found = this.#within(stretch).flatMap((part) => {
      const waves = part.waves[column];
      if (waves.length === 0) return [];
      const scatter = this.#scatterOf(waves);
      const judge = part.company.includes(column) ? part.together : this.#judge([scatter], part);
      return [{ waves, judge, variance: judge.varianceOf(scatter) * this.#unit(waves.mean) }];
    });
    if (found.length === 0) return undefined;
    const length = found.reduce((sum, { waves }) => sum + waves.length, 0);
    const parts = found.map(({ waves, judge, variance }) => {
      const share = waves.length / length;
      return { mean: share * waves.mean, variance: share * share * variance, judge };
    });
    const total = (value: (part: (typeof parts)[number]) => number) =>
      parts.reduce((sum, part) => sum + value(part), 0);
    return {
      mean: total(({ mean }) => mean),
      variance: total(({ variance }) => variance),
      degrees: degreesOf(parts),
      samples: total(({ judge }) => judge.samples),
    };
  }

  /** Two columns on the bins of a stretch that both have; undefined where they have none in common. */
  pair(first: number, second: number, stretch: BinRange): ChancePair | undefined {
    const found = this.#within(stretch).flatMap((part) => this.#pairIn(part, first, second) ?? []);
    if (found.length === 0) return undefined;
    const length = found.reduce((sum, part) => sum + part.length, 0);
    const meanOf = (which: 'meanA' | 'meanB') =>
      found.reduce((sum, part) => sum + (part.length / length) * part[which], 0);
    const [meanA, meanB] = [meanOf('meanA'), meanOf('meanB')];
    const parts = found.map((part) => {
      const shareA = meanA > 0 ? ((part.length / length) * part.meanA) / meanA : 0;
      const shareB = meanB > 0 ? ((part.length / length) * part.meanB) / meanB : 0;
      const own = { a: shareA * shareA * part.varianceA, b: shareB * shareB * part.varianceB };
      return { judge: part.judge, own, variance: own.a + own.b - 2 * shareA * shareB * part.covariance };
    });
    const total = (value: (part: (typeof parts)[number]) => number) =>
      parts.reduce((sum, part) => sum + value(part), 0);
    return {
      first: meanA,
      second: meanB,
      firstVariance: total(({ own }) => own.a),
      secondVariance: total(({ own }) => own.b),
      variance: total(({ variance }) => variance),
      degrees: degreesOf(parts),
      samples: total(({ judge }) => judge.samples),
    };
  }

  /** Two columns in one part, on the bins that both have; kept, as every stretch that holds the part asks again. */
  #pairIn(part: Part, first: number, second: number): PairPart | undefined {
    const key = first * this.#columns.length + second;
    const known = part.pairs.get(key);
    if (known !== undefined) return known;
    const { range } = part;
    const width = this.#width.subarray(range.first, range.end);
    const columns = [first, second].map((i) => this.#columns[i].subarray(range.first, range.end));
    const together = sameCover(columns[0], columns[1]);
    const [x, y] = together ? columns : common(columns[0], columns[1]);
    const [a, b] = together
      ? [part.waves[first], part.waves[second]]
      : [new CosineWaves(x, width), new CosineWaves(y, width)];
    if (a.length === 0) return undefined;
    const [ofA, ofB] = [this.#scatterOf(a), this.#scatterOf(b)];
    const asCompany = [first, second].every(
      (i) => part.company.includes(i) && a.length >= ALIKE_PAIR * part.waves[i].length,
    );
    const judge = asCompany ? part.together : this.#judge([ofA, ofB], part);
    const varianceA = judge.varianceOf(ofA);
    const varianceB = judge.varianceOf(ofB);
    const apart = judge.varianceOf({
      variance: spreadApart(x, y, width, a, b),
      waves: ofA.waves.map((wave, j) => wave - ofB.waves[j]),
    });
    const most = Math.sqrt(varianceA * varianceB);
    const found = {
      length: a.length,
      meanA: a.mean,
      meanB: b.mean,
      judge,
      varianceA,
      varianceB,
      covariance: Math.min(most, Math.max(-most, (varianceA + varianceB - apart) / 2)),
    };
    part.pairs.set(key, found);
    return found;
  }

  #within({ first, end }: BinRange): readonly Part[] {
    const from = firstPart(this.#parts, first);
    return this.#parts.slice(from, Math.max(from, endPart(this.#parts, end)));
  }

  /** Those who have less of a part than others. */
  #judge(scatters: readonly Scatter[], { memory: { least, most } }: Part): JointScatter {
    return new JointScatter(scatters, Math.min(Math.max(memoryOf(scatters), least), most));
  }

  #wavesOf(column: Float64Array, part: BinRange & KeptCosines): CosineWaves {
    const { first, end } = part;
    return new CosineWaves(column.subarray(first, end), this.#width.subarray(first, end), part);
  }

  #scatterOf(waves: CosineWaves): Scatter {
    if (waves.variance < STILL ** 2) return { variance: 0, waves: new Float64Array(waves.waves.length) };
    return this.#scale === 'relative' && waves.mean > 0 ? waves.relative() : waves;
  }

  /** What brings a variance of the scale back to metres. */
  #unit(mean: number): number {
    return this.#scale === 'relative' ? mean * mean : 1;
  }
}

const firstPart = bisector(({ range }: Part) => range.first).left;
const endPart = bisector(({ range }: Part) => range.end).right;

function sameCover(a: Float64Array, b: Float64Array): boolean {
  for (let k = 0; k < a.length; k++) if (Number.isNaN(a[k]) !== Number.isNaN(b[k])) return false;
  return true;
}

/** Both columns, NaN where either has none. */
function common(a: Float64Array, b: Float64Array): [Float64Array, Float64Array] {
  const hidden = (k: number) => Number.isNaN(a[k]) || Number.isNaN(b[k]);
  return [a.map((value, k) => (hidden(k) ? Number.NaN : value)), b.map((value, k) => (hidden(k) ? Number.NaN : value))];
}

/** Mean square of the difference of two columns, each as a share of its mean. */
function spreadApart(
  x: Float64Array,
  y: Float64Array,
  width: Float64Array,
  { mean: meanX, length }: CosineWaves,
  { mean: meanY }: CosineWaves,
): number {
  let sum = 0;
  for (let k = 0; k < x.length; k++) {
    if (Number.isNaN(x[k])) continue;
    const apart = (meanX > 0 ? x[k] / meanX : 1) - (meanY > 0 ? y[k] / meanY : 1);
    sum += width[k] * apart * apart;
  }
  return sum / length;
}

/** Satterthwaite's degrees of a sum of variances; those of the least known part where nothing varies. */
function degreesOf(parts: readonly { readonly variance: number; readonly judge: JointScatter }[]): number {
  const sum = parts.reduce((total, { variance }) => total + variance, 0);
  if (!(sum > 0)) return Math.min(...parts.map(({ judge }) => judge.degrees));
  return sum ** 2 / parts.reduce((total, { variance, judge }) => total + variance ** 2 / judge.degrees, 0);
}
