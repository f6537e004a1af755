import type { Bins } from './Bins';
import type { FixTrack } from './FixTrack';
import { stepWeights } from './stepWeights';

/** Where a fix is known to have been: an anchor, or what other receivers on the same body say. */
export interface Pin {
  readonly fix: number;
  /** Metres along the route. */
  readonly alongTrack: number;
  /** Standard deviation of that, metres. */
  readonly sd: number;
}

/** Candidates this much further away than the nearest, in metres, are not worth a state. */
const WORSE = 40;

/** Seconds after which the error of a receiver is a new one, so that a fix counts in full. */
const FORGOTTEN = 30;

/** Weight of a jump along the route that no motion explains. */
const JUMP = Math.exp(-10);

/** Cost of a metre left out: at either end of the route and by a jump ahead, or gone over again by a jump back. */
const SKIPPED = 0.005;
const REPEATED = 0.02;

/** States further than this from the matched one, metres along the route, are another part of it. */
const SAME_PART = 40;

/** What the fixes say of one path. */
export interface LatticeAnswer {
  /** The bin of each knot on the likeliest path. */
  readonly bin: Int32Array;
  /** Share of all paths that pass the same part of the route, for each knot. */
  readonly confidence: Float32Array;
  /** The bin of the likeliest other part; -1 where there is none. */
  readonly other: Int32Array;
}

/**
 * The hidden states behind a recording: for each knot, the bins of the route that its fix may belong to. Paths through
 * them are weighed by how far the fixes lie from the route and by how the route moves along them against how the fixes
 * moved.
 *
 * @remarks A first-order hidden Markov model in the linear domain, scaled at every knot: the likeliest path by max-product,
 * the shares of all paths by sum-product (forward–backward) on the same weights. Weights fall off as Student's t with 4
 * degrees of freedom, in two dimensions (1 + r²/4σ²)⁻³: heavy tails for heavy-tailed errors, and no exponential in the
 * inner loop.
 * @see Newson & Krumm, Hidden Markov map matching through noise and sparseness, ACM GIS 2009: the idea of the model
 * @see Rabiner, A tutorial on hidden Markov models, Proc. IEEE 77 (1989), §III: the recursions and their scaling
 */
export class Lattice {
  /** The fix of each knot that has candidates. */
  readonly knots: Int32Array;
  readonly #bins: Bins;
  readonly #track: FixTrack;
  /** First state of each knot, and the end. */
  readonly #first: Int32Array;
  readonly #bin: Int32Array;
  /** Metres from the fix to the bin. */
  readonly #away: Float32Array;

  constructor(bins: Bins, track: FixTrack, knots: Int32Array, reach: number) {
    this.#bins = bins;
    this.#track = track;
    const kept: number[] = [];
    const first: number[] = [0];
    const bin: number[] = [];
    const away: number[] = [];
    for (const fix of knots) {
      const segments = bins.tree.within(track.lon[fix], track.lat[fix], reach);
      let nearest = Infinity;
      let last = -1;
      const begun = bin.length;
      for (const segment of segments) {
        for (let k = Math.max(segment, last + 1); k <= segment + 1; k++) {
          const distance = Math.hypot(bins.x[k] - track.x[fix], bins.y[k] - track.y[fix], bins.z[k] - track.z[fix]);
          last = k;
          if (distance > reach + bins.spacing) continue;
          if (distance < nearest) nearest = distance;
          bin.push(k);
          away.push(distance);
        }
      }
      let end = begun;
      for (let state = begun; state < bin.length; state++) {
        if (away[state] > nearest + WORSE) continue;
        bin[end] = bin[state];
        away[end++] = away[state];
      }
      bin.length = away.length = end;
      if (end === begun) continue;
      kept.push(fix);
      first.push(end);
    }
    this.knots = Int32Array.from(kept);
    this.#first = Int32Array.from(first);
    this.#bin = Int32Array.from(bin);
    this.#away = Float32Array.from(away);
  }

  /** Metres from the fix of a knot to a bin among its states. */
  awayFrom(knot: number, bin: number): number {
    for (let state = this.#first[knot]; state < this.#first[knot + 1]; state++) {
      if (this.#bin[state] === bin) return this.#away[state];
    }
    return Number.NaN;
  }

  /**
   * The likeliest path, and how sure it is.
   *
   * @param sigma - Standard deviation of a fix at each bin, metres per axis.
   */
  solve(sigma: Float64Array, pins: readonly Pin[]): LatticeAnswer {
    const knots = this.knots.length;
    const bins = this.#bins;
    const track = this.#track;
    const states = this.#bin.length;
    const first = this.#first;
    const stateBin = this.#bin;
    const emission = this.#emissions(sigma, pins);
    const back = new Int32Array(states).fill(-1);
    const alpha = new Float32Array(states);
    const widest = this.#widest();
    let best = new Float64Array(widest);
    let sum = new Float64Array(widest);
    let nextBest = new Float64Array(widest);
    let nextSum = new Float64Array(widest);
    const px = new Float64Array(widest);
    const py = new Float64Array(widest);
    const pz = new Float64Array(widest);
    const steps = stepWeights(track, this.knots, bins);
    for (let i = 0; i < first[1]; i++) {
      best[i] = sum[i] = emission[i] * Math.exp(-SKIPPED * stateBin[i] * bins.spacing);
    }
    rescale(best, first[1]);
    rescale(sum, first[1]);
    alpha.set(sum.subarray(0, first[1]));
    for (let knot = 1; knot < knots; knot++) {
      const from = first[knot - 1];
      const to = first[knot];
      const before = to - from;
      const size = first[knot + 1] - to;
      const [a, b] = [this.knots[knot - 1], this.knots[knot]];
      const [dx, dy, dz] = [track.x[b] - track.x[a], track.y[b] - track.y[a], track.z[b] - track.z[a]];
      for (let i = 0; i < before; i++) {
        px[i] = bins.x[stateBin[from + i]] + dx;
        py[i] = bins.y[stateBin[from + i]] + dy;
        pz[i] = bins.z[stateBin[from + i]] + dz;
      }
      const { lowest, weights, spread } = steps(knot, sigma[stateBin[to]]);
      const highest = lowest + weights.length - 1;
      nextBest.fill(0, 0, size);
      nextSum.fill(0, 0, size);
      this.#jump(from, to, size, best, sum, nextBest, nextSum, back);
      let low = 0;
      for (let j = 0; j < size; j++) {
        const bin = stateBin[to + j];
        while (low < before && stateBin[from + low] < bin - highest) low++;
        const x = bins.x[bin];
        const y = bins.y[bin];
        const z = bins.z[bin];
        let top = nextBest[j];
        let total = nextSum[j];
        let came = back[to + j];
        for (let i = low; i < before; i++) {
          const step = bin - stateBin[from + i] - lowest;
          if (step < 0) break;
          const ex = x - px[i];
          const ey = y - py[i];
          const ez = z - pz[i];
          const tail = 1 + (ex * ex + ey * ey + ez * ez) * spread;
          const weight = weights[step] / (tail * tail * tail);
          const value = best[i] * weight;
          if (value > top) {
            top = value;
            came = from + i;
          }
          total += sum[i] * weight;
        }
        nextBest[j] = top * emission[to + j];
        nextSum[j] = total * emission[to + j];
        back[to + j] = came;
      }
      if (knot === knots - 1) {
        for (let j = 0; j < size; j++) {
          const left = Math.exp(-SKIPPED * (bins.count - 1 - stateBin[to + j]) * bins.spacing);
          nextBest[j] *= left;
          nextSum[j] *= left;
        }
      }
      rescale(nextBest, size);
      rescale(nextSum, size);
      alpha.set(nextSum.subarray(0, size), to);
      [best, nextBest] = [nextBest, best];
      [sum, nextSum] = [nextSum, sum];
    }
    const bin = new Int32Array(knots);
    let state = first[knots - 1];
    for (let j = 1; j < first[knots] - first[knots - 1]; j++)
      if (best[j] > best[state - first[knots - 1]]) state = first[knots - 1] + j;
    for (let knot = knots - 1; knot >= 0; knot--) {
      bin[knot] = stateBin[state];
      state = back[state];
    }
    return { bin, ...this.#shares(alpha, emission, sigma, steps, bin) };
  }

  #widest(): number {
    let widest = 0;
    for (let knot = 0; knot < this.knots.length; knot++) {
      widest = Math.max(widest, this.#first[knot + 1] - this.#first[knot]);
    }
    return widest;
  }

  /** How well each state fits its fix alone: fixes that follow each other closely share one error and count less. */
  #emissions(sigma: Float64Array, pins: readonly Pin[]): Float64Array {
    const { clock } = this.#track;
    const emission = new Float64Array(this.#bin.length);
    for (let knot = 0; knot < this.knots.length; knot++) {
      const elapsed = knot > 0 ? clock[this.knots[knot]] - clock[this.knots[knot - 1]] : FORGOTTEN;
      const power = -3 * Math.min(Math.max(elapsed, 1) / FORGOTTEN, 1);
      for (let state = this.#first[knot]; state < this.#first[knot + 1]; state++) {
        const r = this.#away[state] / sigma[this.#bin[state]];
        emission[state] = (1 + (r * r) / 4) ** power;
      }
    }
    for (const { fix, alongTrack, sd } of pins) {
      const knot = this.knots.indexOf(fix);
      if (knot < 0) continue;
      for (let state = this.#first[knot]; state < this.#first[knot + 1]; state++) {
        const r = (this.#bin[state] * this.#bins.spacing - alongTrack) / sd;
        // not so far down that several pins on one fix could leave nothing
        emission[state] = Math.max(emission[state] * Math.exp((r * r) / -2), 1e-200);
      }
    }
    return emission;
  }

  /** Lets every path jump along the route, at a price; both ways in one sweep over the states each. */
  #jump(
    from: number,
    to: number,
    size: number,
    best: Float64Array,
    sum: Float64Array,
    nextBest: Float64Array,
    nextSum: Float64Array,
    back: Int32Array,
  ): void {
    const bin = this.#bin;
    const ahead = Math.exp(-SKIPPED * this.#bins.spacing);
    const behind = Math.exp(-REPEATED * this.#bins.spacing);
    let i = from;
    let at = bin[to];
    let top = 0;
    let came = -1;
    let total = 0;
    for (let j = to; j < to + size; j++) {
      const fade = ahead ** (bin[j] - at);
      at = bin[j];
      top *= fade;
      total *= fade;
      for (; i < to && bin[i] < at; i++) {
        const weight = JUMP * ahead ** (at - bin[i]);
        total += sum[i - from] * weight;
        if (best[i - from] * weight > top) {
          top = best[i - from] * weight;
          came = i;
        }
      }
      nextSum[j - to] += total;
      if (top > nextBest[j - to]) {
        nextBest[j - to] = top;
        back[j] = came;
      }
    }
    i = to - 1;
    at = bin[to + size - 1];
    top = total = 0;
    for (let j = to + size - 1; j >= to; j--) {
      const fade = behind ** (at - bin[j]);
      at = bin[j];
      top *= fade;
      total *= fade;
      for (; i >= from && bin[i] >= at; i--) {
        const weight = JUMP * behind ** (bin[i] - at);
        total += sum[i - from] * weight;
        if (best[i - from] * weight > top) {
          top = best[i - from] * weight;
          came = i;
        }
      }
      nextSum[j - to] += total;
      if (top > nextBest[j - to]) {
        nextBest[j - to] = top;
        back[j] = came;
      }
    }
  }

  /** The backward sweep: for each knot the share of all paths that pass where the likeliest one does. */
  #shares(
    alpha: Float32Array,
    emission: Float64Array,
    sigma: Float64Array,
    steps: ReturnType<typeof stepWeights>,
    matched: Int32Array,
  ): { confidence: Float32Array; other: Int32Array } {
    const bins = this.#bins;
    const track = this.#track;
    const first = this.#first;
    const stateBin = this.#bin;
    const knots = this.knots.length;
    const confidence = new Float32Array(knots);
    const other = new Int32Array(knots).fill(-1);
    const widest = this.#widest();
    let beta = new Float64Array(widest);
    let earlier = new Float64Array(widest);
    const ahead = Math.exp(-SKIPPED * bins.spacing);
    const behind = Math.exp(-REPEATED * bins.spacing);
    const part = Math.ceil(SAME_PART / bins.spacing);
    beta.fill(1, 0, first[knots] - first[knots - 1]);
    for (let knot = knots - 1; knot >= 0; knot--) {
      const from = first[knot];
      const to = first[knot + 1];
      let same = 0;
      let total = 0;
      let top = 0;
      for (let state = from; state < to; state++) {
        const share = alpha[state] * beta[state - from];
        total += share;
        if (Math.abs(stateBin[state] - matched[knot]) <= part) same += share;
        else if (share > top) {
          top = share;
          other[knot] = stateBin[state];
        }
      }
      confidence[knot] = total > 0 ? same / total : 0;
      if (knot === 0) break;
      const begun = first[knot - 1];
      const size = to - from;
      const [a, b] = [this.knots[knot - 1], this.knots[knot]];
      const [dx, dy, dz] = [track.x[b] - track.x[a], track.y[b] - track.y[a], track.z[b] - track.z[a]];
      const { lowest, weights, spread } = steps(knot, sigma[stateBin[from]]);
      const highest = lowest + weights.length - 1;
      for (let j = 0; j < size; j++) beta[j] *= emission[from + j];
      // jumps ahead, from the last state down; then jumps back, from the first up
      let reached = size - 1;
      let running = 0;
      let at = stateBin[to - 1];
      for (let i = from - 1; i >= begun; i--) {
        running *= ahead ** (at - stateBin[i]);
        at = stateBin[i];
        for (; reached >= 0 && stateBin[from + reached] > at; reached--) {
          running += JUMP * beta[reached] * ahead ** (stateBin[from + reached] - at);
        }
        earlier[i - begun] = running;
      }
      reached = 0;
      running = 0;
      at = stateBin[from];
      for (let i = begun; i < from; i++) {
        running *= behind ** (stateBin[i] - at);
        at = stateBin[i];
        for (; reached < size && stateBin[from + reached] <= at; reached++) {
          running += JUMP * beta[reached] * behind ** (at - stateBin[from + reached]);
        }
        earlier[i - begun] += running;
      }
      let low = 0;
      for (let i = begun; i < from; i++) {
        const bin = stateBin[i];
        while (low < size && stateBin[from + low] < bin + lowest) low++;
        const x = bins.x[bin] + dx;
        const y = bins.y[bin] + dy;
        const z = bins.z[bin] + dz;
        let sum = earlier[i - begun];
        for (let j = low; j < size; j++) {
          const to = stateBin[from + j];
          if (to > bin + highest) break;
          const ex = bins.x[to] - x;
          const ey = bins.y[to] - y;
          const ez = bins.z[to] - z;
          const tail = 1 + (ex * ex + ey * ey + ez * ez) * spread;
          sum += (beta[j] * weights[to - bin - lowest]) / (tail * tail * tail);
        }
        earlier[i - begun] = sum;
      }
      rescale(earlier, from - begun);
      [beta, earlier] = [earlier, beta];
    }
    return { confidence, other };
  }
}

/** Makes the largest 1, so that nothing underflows along a long recording. */
function rescale(values: Float64Array, size: number): void {
  let top = 0;
  for (let i = 0; i < size; i++) if (values[i] > top) top = values[i];
  for (let i = 0; i < size; i++) values[i] /= top;
}
