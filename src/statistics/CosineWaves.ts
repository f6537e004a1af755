/** So many waves, of 1 to 32 half periods over the stretch: what is sought is slow. */
export const WAVES = 32;
/** Longer columns are pooled first: four entries a half period of the shortest wave are left of 128. */
const MOST_ENTRIES = 512;

/** A column about its mean: its mean square, and its waves. */
export interface Scatter {
  readonly variance: number;
  readonly waves: Float64Array;
}

/** What columns of one stretch have in common that have a value everywhere: twice the cosine of each entry's share of it. */
export interface KeptCosines {
  cosines?: Float64Array;
}

/**
 * A column along a stretch by its mean and its slow waves: cosines of whole half periods, which no mean or trend of the
 * stretch disturbs.
 */
export class CosineWaves implements Scatter {
  /** Sum of the weights: metres. */
  readonly length: number;
  readonly count: number;
  readonly mean: number;
  /** Mean square about the mean. */
  readonly variance: number;
  /** aⱼ = √2 Σ w (x − mean) cos(π j u), u the share of the length up to the entry's middle, at [j − 1]. */
  readonly waves: Float64Array;

  /**
   * @param values NaN where there is none: such entries are closed up
   * @param weights metres of each
   * @param kept by the stretch, the same for all of its columns
   *
   * @remarks O(n) and 512 × 32 sums at most; a column of a single entry has no waves
   */
  constructor(values: ArrayLike<number>, weights: ArrayLike<number>, kept: KeptCosines = {}) {
    let length = 0;
    let sum = 0;
    let count = 0;
    for (let i = 0; i < values.length; i++) {
      if (Number.isNaN(values[i])) continue;
      length += weights[i];
      sum += weights[i] * values[i];
      count++;
    }
    this.length = length;
    this.count = count;
    this.mean = count > 0 ? sum / length : 0;
    const pool = Math.max(1, Math.ceil(count / MOST_ENTRIES));
    // waves shorter than two entries would be others in disguise; pooled columns have more than enough
    this.waves = new Float64Array(Math.min(WAVES, count >> 1));
    const entries = Math.ceil(count / pool);
    const amounts = new Float64Array(entries);
    const whole = count === values.length;
    const known = whole ? kept.cosines : undefined;
    const cosines = known ?? new Float64Array(entries);
    if (whole) kept.cosines = cosines;
    let variance = 0;
    let done = 0;
    for (let entry = 0, i = 0; entry < entries; entry++) {
      let pooled = 0;
      let weight = 0;
      for (let members = 0; members < pool && i < values.length; i++) {
        if (Number.isNaN(values[i])) continue;
        const deviation = values[i] - this.mean;
        const weighed = weights[i] * deviation;
        variance += weighed * deviation;
        pooled += weighed;
        weight += weights[i];
        members++;
      }
      if (!known) cosines[entry] = 2 * Math.cos((Math.PI * (done + weight / 2)) / length);
      amounts[entry] = (Math.SQRT2 * pooled) / length;
      done += weight;
    }
    this.variance = count > 0 ? variance / length : 0;
    if (variance > 0) this.#add(amounts, cosines);
  }

  /** The same column as a share of its mean, which is not 0. */
  relative(): Scatter {
    return { variance: this.variance / this.mean ** 2, waves: this.waves.map((wave) => wave / this.mean) };
  }

  /** Each entry's cosines one after the other, of four entries at once: a cosine waits for the two before it. */
  #add(amounts: Float64Array, cosines: Float64Array): void {
    const { waves } = this;
    for (let i = 0; i < amounts.length; i += 4) {
      const p = cosines[i];
      const q = cosines[i + 1] || 0;
      const r = cosines[i + 2] || 0;
      const s = cosines[i + 3] || 0;
      // times the amounts from the start
      let a = amounts[i];
      let b = amounts[i + 1] || 0;
      let c = amounts[i + 2] || 0;
      let d = amounts[i + 3] || 0;
      let a1 = (a * p) / 2;
      let b1 = (b * q) / 2;
      let c1 = (c * r) / 2;
      let d1 = (d * s) / 2;
      // one value after the other: to take them apart as lists makes each of them an object
      for (let j = 0; j < waves.length; j++) {
        waves[j] += a1 + b1 + (c1 + d1);
        const a2 = p * a1 - a;
        const b2 = q * b1 - b;
        const c2 = r * c1 - c;
        const d2 = s * d1 - d;
        a = a1;
        b = b1;
        c = c1;
        d = d1;
        a1 = a2;
        b1 = b2;
        c1 = c2;
        d1 = d2;
      }
    }
  }
}
