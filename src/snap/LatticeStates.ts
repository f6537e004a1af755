import { earthCentred } from '../geodesy';
import type { Bins } from './Bins';
import type { FixTrack } from './FixTrack';

/** Where a fix is known to have been: an anchor, or what other receivers on the same body say. */
export interface Pin {
  readonly fix: number;
  /** Metres along the route. */
  readonly alongTrack: number;
  /** Standard deviation of that, metres. */
  readonly sd: number;
}

/** Candidates this much further away than the nearest are not worth a state: metres, or standard deviations if more. */
const WORSE = 30;
const WORSE_SIGMAS = 4;

/** Cost of a metre of the route left out at either end. */
const LEFT_OUT = 0.005;

/** Seconds after which the error of a receiver is a new one, so that a fix counts in full. */
const FORGOTTEN = 30;

/** The states of one knot, written out; `size` of them, ascending. */
export interface KnotStates {
  size: number;
  readonly bin: Int32Array;
  /** How well each state fits its fix alone. */
  readonly emission: Float64Array;
}

/**
 * The states of the lattice: for each knot, the bins of the route that its fix may belong to. Kept as runs of bins, since
 * that is what they are: one for each pass of the route within reach.
 */
export class LatticeStates {
  /** The fix of each knot that has candidates. */
  readonly knots: Int32Array;
  readonly bins: Bins;
  /** Earth-centred metres of each knot's fix, and its seconds. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
  readonly clock: Float64Array;
  /** 1 where the recording was interrupted before a knot. */
  readonly interrupted: Uint8Array;
  /** Number of the first state of each knot, and of all. */
  readonly first: Int32Array;
  /** The most states of a knot. */
  readonly widest: number;
  /** First run of each knot, and their number; first and last bin of each run. */
  readonly #firstRun: Int32Array;
  readonly #runs: Int32Array;

  /** @param largest - The largest standard deviation of a fix, metres per axis. */
  constructor(bins: Bins, track: FixTrack, knots: Int32Array, reach: number, largest: number) {
    this.bins = bins;
    const worse = Math.max(WORSE, WORSE_SIGMAS * largest);
    const size = knots.length;
    const kept = new Int32Array(size);
    this.x = new Float64Array(size);
    this.y = new Float64Array(size);
    this.z = new Float64Array(size);
    this.clock = new Float64Array(size);
    this.interrupted = new Uint8Array(size);
    this.first = new Int32Array(size + 1);
    this.#firstRun = new Int32Array(size + 1);
    const runs: number[] = [];
    const near: number[] = [];
    const squares: number[] = [];
    let knot = 0;
    let states = 0;
    let widest = 0;
    for (const fix of knots) {
      const [x, y, z] = earthCentred(track.lon[fix], track.lat[fix]);
      const found = bins.near(x, y, z, reach, near, squares);
      if (found === 0) continue;
      let nearest = Infinity;
      for (let k = 0; k < found; k++) if (squares[k] < nearest) nearest = squares[k];
      const limit = (Math.sqrt(nearest) + worse) ** 2;
      const begun = states;
      let last = -2;
      for (let k = 0; k < found; k++) {
        if (squares[k] > limit) continue;
        if (near[k] === last + 1) runs[runs.length - 1] = near[k];
        else runs.push(near[k], near[k]);
        last = near[k];
        states++;
      }
      kept[knot] = fix;
      this.x[knot] = x;
      this.y[knot] = y;
      this.z[knot] = z;
      this.clock[knot] = track.clock[fix];
      const before = knot > 0 ? kept[knot - 1] : fix;
      for (let i = before + 1; i <= fix; i++) if (track.gapBefore[i] === 1) this.interrupted[knot] = 1;
      knot++;
      this.first[knot] = states;
      this.#firstRun[knot] = runs.length / 2;
      widest = Math.max(widest, states - begun);
    }
    this.knots = kept.subarray(0, knot);
    this.widest = widest;
    this.#runs = Int32Array.from(runs);
  }

  /** The bin of one state of a knot. */
  binOf(knot: number, state: number): number {
    let left = state;
    let run = this.#firstRun[knot];
    for (; left > this.#runs[2 * run + 1] - this.#runs[2 * run]; run++) {
      left -= this.#runs[2 * run + 1] - this.#runs[2 * run] + 1;
    }
    return this.#runs[2 * run] + left;
  }

  /** What a path weighs that leaves so many bins out at an end of the route. */
  leftOut(bins: number): number {
    return Math.exp(-LEFT_OUT * bins * this.bins.spacing);
  }

  /** Room for the states of any knot. */
  room(): KnotStates {
    return { size: 0, bin: new Int32Array(this.widest), emission: new Float64Array(this.widest) };
  }

  /**
   * Writes out the states of a knot. Fixes that follow each other closely share one error and count less.
   *
   * @param sigma - Standard deviation of a fix at each bin, metres per axis.
   */
  write(knot: number, sigma: Float64Array, pins: readonly Pin[], into: KnotStates): void {
    const { x, y, z, spacing } = this.bins;
    const elapsed = knot > 0 ? this.clock[knot] - this.clock[knot - 1] : FORGOTTEN;
    const power = -3 * Math.min(Math.max(elapsed, 1) / FORGOTTEN, 1);
    let size = 0;
    for (let run = this.#firstRun[knot]; run < this.#firstRun[knot + 1]; run++) {
      for (let bin = this.#runs[2 * run]; bin <= this.#runs[2 * run + 1]; bin++) {
        const dx = x[bin] - this.x[knot];
        const dy = y[bin] - this.y[knot];
        const dz = z[bin] - this.z[knot];
        const square = (dx * dx + dy * dy + dz * dz) / (sigma[bin] * sigma[bin]);
        into.bin[size] = bin;
        into.emission[size++] = Math.exp(power * Math.log(1 + square / 4));
      }
    }
    into.size = size;
    for (const { fix, alongTrack, sd } of pins) {
      if (fix !== this.knots[knot]) continue;
      for (let k = 0; k < size; k++) {
        const r = (into.bin[k] * spacing - alongTrack) / sd;
        // not so far down that several pins on one fix could leave nothing
        into.emission[k] = Math.max(into.emission[k] * Math.exp((r * r) / -2), 1e-200);
      }
    }
  }
}
