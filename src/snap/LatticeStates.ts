import { earthCentred } from '../geodesy';
import type { Bins } from './Bins';
import type { FixTrack } from './FixTrack';
import type { KnotStates } from './KnotStates';

/** Where a fix is known to have been: an anchor, or what other receivers on the same body say. */
export interface Pin {
  readonly fix: number;
  /** Metres along the route. */
  readonly alongTrack: number;
  /** Standard deviation of that, metres. */
  readonly sd: number;
}

/** The fix of a knot: earth-centred metres, seconds, and as {@link LatticeStates} has it. */
export interface KnotFix {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly clock: number;
  readonly interrupted: 0 | 1;
  readonly admitted: number;
}

/** So far, in metres, a pass is followed from which the fixes have strayed: twice the width of a block. */
const FAR = 200;

/** Of a pass that nothing leads to, the bins nearest to the fix will do: metres and standard deviations around its foot. */
const AROUND = 10;
const AROUND_SIGMAS = 1.5;

/**
 * Of passes of the same place, as of laps, so many are landed on ahead and as many back, and the last of all: the others cost
 * more and fit no better, and a skip on from there is possible at any time.
 */
const COPIES = 3;

/** No skip leads further than this, metres, unless the body is lost: at its price (`Jumps`) nothing would be left of it. */
const FURTHEST_AHEAD = 3_900;
const FURTHEST_BACK = 2_300;

/** Bins are gathered for fixes that lie within so many metres of one another, and so many more bins on and back. */
const ROAM = 70;
const SPARE = 32;

/** Seconds after which the error of a receiver is a new one, so that a fix counts in full. */
const FORGOTTEN = 30;

/** However far a fix lies away, a receiver may have erred so: e to the power of minus so much, 9 standard deviations. */
const WILD = 9;
const WILDEST = Math.exp(-WILD);
const WILD_TAIL = Math.exp(WILD / 3);

/**
 * The states of the lattice: for each knot, the bins of the route that its fix may belong to. A bin is one when it can be
 * reached from a state of the knot before, or when it lies within reach of the fix, whatever else lies nearer.
 */
export class LatticeStates {
  /** The fix of each knot that has candidates. */
  readonly knots: Int32Array;
  readonly bins: Bins;
  /** Bins from one state to the next. */
  readonly every: number;
  /** Earth-centred metres of each knot's fix, and its seconds. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
  readonly clock: Float64Array;
  /** 1 where the recording was interrupted before a knot. */
  readonly interrupted: Uint8Array;
  /** What a fix itself says of its standard deviation, metres per axis: taken for no better; 0 where it says nothing. */
  readonly admitted: Float64Array;
  readonly #seam: Float32Array;
  /** A bin near enough to the last place asked for, most often so to the next; -1 where there was none. */
  #held = -1;
  /** As much of a whole fix as a knot counted last, and what the worst fit weighs then. */
  #shareBefore = 1;
  #leastBefore = WILDEST;
  #reach = 0;
  #far = 0;
  #around = 0;
  /** Bins gathered around a place, earth-centred metres: those within how far of it, from one on and up to another. */
  readonly #gathered: number[] = [];
  #count = 0;
  #x = 0;
  #y = 0;
  #z = 0;
  #within = -1;
  #first = 0;
  #last = 0;
  /** Scratch: bins near a fix and how far they lie from it, squared; the foot of each pass among them, and its end. */
  readonly #near: number[] = [];
  readonly #squares: number[] = [];
  readonly #feet: number[] = [];
  readonly #ends: number[] = [];
  readonly #kept: number[] = [];

  /**
   * @param largest - The largest standard deviation of a fix, metres per axis.
   * @param every - Only every so many-th bin is a state.
   * @param size - Room for so many knots.
   * @param seam - What a skip weighs from or to each bin.
   */
  constructor(
    bins: Bins,
    track: Pick<FixTrack, 'lon' | 'lat' | 'clock' | 'gapBefore'>,
    knots: Int32Array,
    reach: number,
    largest: number,
    every = 1,
    size = knots.length,
    seam = bins.seam,
  ) {
    this.bins = bins;
    this.#seam = seam;
    this.every = every;
    this.expect(reach, largest);
    const kept = new Int32Array(size);
    this.x = new Float64Array(size);
    this.y = new Float64Array(size);
    this.z = new Float64Array(size);
    this.clock = new Float64Array(size);
    this.interrupted = new Uint8Array(size);
    this.admitted = new Float64Array(size);
    let knot = 0;
    for (const fix of knots) {
      const [x, y, z] = earthCentred(track.lon[fix], track.lat[fix]);
      if (!this.holds(x, y, z)) continue;
      kept[knot] = fix;
      this.x[knot] = x;
      this.y[knot] = y;
      this.z[knot] = z;
      this.clock[knot] = track.clock[fix];
      const before = knot > 0 ? kept[knot - 1] : fix;
      for (let i = before + 1; i <= fix; i++) if (track.gapBefore[i] === 1) this.interrupted[knot] = 1;
      knot++;
    }
    this.knots = kept.subarray(0, knot);
  }

  /** Of a recording that goes on: knot 0 is the first, or the one before; `take` writes the next. */
  static ofNext(bins: Bins, reach: number, largest: number): LatticeStates {
    const none = { lon: [], lat: [], clock: new Float64Array(), gapBefore: [] };
    return new LatticeStates(bins, none, new Int32Array(), reach, largest, 1, 2, bins.partings);
  }

  /** Takes what the receiver is thought to be like from here on: how far to look, and its largest standard deviation. */
  expect(reach: number, largest: number): void {
    this.#reach = reach;
    this.#far = Math.max(FAR, reach);
    this.#around = (AROUND + AROUND_SIGMAS * largest) ** 2;
  }

  /** Whether a place, earth-centred metres, is near enough to the route for a knot. */
  holds(x: number, y: number, z: number): boolean {
    const { bins } = this;
    if (this.#held >= 0 && bins.square(this.#held, x, y, z) <= this.#far ** 2) return true;
    const found = bins.near(x, y, z, this.#far, this.#near, this.#squares);
    // amid them, so that it serves for long
    this.#held = found > 0 ? this.#near[found >> 1] : -1;
    return this.#held >= 0;
  }

  /** Writes where and when the fix of a knot was. */
  take(knot: number, { x, y, z, clock, interrupted, admitted }: KnotFix): void {
    this.x[knot] = x;
    this.y[knot] = y;
    this.z[knot] = z;
    this.clock[knot] = clock;
    this.interrupted[knot] = interrupted;
    this.admitted[knot] = admitted;
  }

  /**
   * What a knot weighs that lies before the route was joined or after it was left: as little as one gone wild, and as much
   * less as its fix fits a state.
   */
  outside(knot: number, { size, emission }: KnotStates): number {
    const least = this.#least(this.#share(knot));
    let top = least;
    for (let k = 0; k < size; k++) if (emission[k] > top) top = emission[k];
    return (least * least * least) / (top * top);
  }

  /**
   * Writes the states of a knot: the bins that motion may have led to, and those that lie within reach of the fix.
   *
   * @param before - The states of the knot before that are worth going on from; none for the first.
   * @param lowest - Bins that a step may lead on at least, negative when back, and `highest` at most.
   */
  write(knot: number, before: KnotStates, lowest: number, highest: number, into: KnotStates): void {
    const { bins, every } = this;
    const { count, x: binX, y: binY, z: binZ } = bins;
    const far = this.#far ** 2;
    const x = this.x[knot];
    const y = this.y[knot];
    const z = this.z[knot];
    into.size = into.apart = 0;
    let first = 0;
    let last = count - 1;
    if (before.size > 0 && !before.lost) {
      // what lies further on or back than a skip leads
      last = Math.min(before.bin[before.size - 1] + Math.ceil(FURTHEST_AHEAD / this.bins.spacing), last);
      first = Math.max(before.bin[0] - Math.ceil(FURTHEST_BACK / this.bins.spacing), first);
    }
    const origin = before.size > 0 && !before.lost ? before.heaviest : -1;
    let near = this.#landings(x, y, z, this.#reach, first, last, before.size > 0, origin);
    let k = 0;
    const low = lowest - (lowest % every);
    let from = 0;
    for (let i = 0; i < before.size; i++) {
      from = Math.max(before.bin[i] + low, from);
      const to = Math.min(before.bin[i] + highest, count - 1);
      for (; k < near && this.#kept[k] < from; k++) into.add(this.#kept[k], 1);
      for (; from <= to; from += every) {
        const dx = binX[from] - x;
        const dy = binY[from] - y;
        const dz = binZ[from] - z;
        if (dx * dx + dy * dy + dz * dz <= far) into.add(from);
      }
      while (k < near && this.#kept[k] < from) k++;
    }
    for (; k < near; k++) into.add(this.#kept[k], 1);
    if (into.size > 0 || before.size === 0) return;
    near = this.#landings(x, y, z, this.#far, 0, count - 1, true);
    for (k = 0; k < near; k++) into.add(this.#kept[k]);
  }

  /**
   * Writes where the states of a knot lie, and how well they fit its fix: as a density beside the others, so that a section
   * of which little is known is no likelier for that.
   *
   * @param sigma - Standard deviation of a fix at each bin, metres per axis.
   */
  fit(knot: number, sigma: Float64Array, { size, bin, x, y, z, fit, emission, skip }: KnotStates): void {
    const { x: binX, y: binY, z: binZ } = this.bins;
    const seam = this.#seam;
    const fixX = this.x[knot];
    const fixY = this.y[knot];
    const fixZ = this.z[knot];
    const admitted = this.admitted[knot];
    let least = Infinity;
    let most = 0;
    for (let k = 0; k < size; k++) {
      const at = bin[k];
      const deviation = Math.max(sigma[at], admitted);
      const dx = binX[at] - fixX;
      const dy = binY[at] - fixY;
      const dz = binZ[at] - fixZ;
      const tail = Math.min(1 + (dx * dx + dy * dy + dz * dz) / (4 * deviation * deviation), WILD_TAIL);
      x[k] = dx;
      y[k] = dy;
      z[k] = dz;
      emission[k] = tail;
      fit[k] = 1 / (tail * tail * tail);
      skip[k] = fit[k] * seam[at];
      if (deviation < least) least = deviation;
      if (deviation > most) most = deviation;
    }
    if (most <= least) return;
    // in two dimensions a density goes with 1 ÷ σ²: here its third root, as the tail before it is raised
    let before = least;
    let wider = 1;
    for (let k = 0; k < size; k++) {
      const deviation = Math.max(sigma[bin[k]], admitted);
      if (deviation !== before) wider = Math.cbrt((deviation / least) ** 2);
      before = deviation;
      emission[k] *= wider;
    }
  }

  /**
   * Weighs the states of a knot by how well they fit, once. Fixes that follow each other closely share one error and count
   * less.
   */
  weigh(knot: number, pins: readonly Pin[], { size, bin, emission }: KnotStates): void {
    const { bins } = this;
    const share = this.#share(knot);
    const roots = 6 * share;
    if (Number.isInteger(roots)) {
      // 5 s, and what is a multiple of it: no logarithm is needed
      for (let k = 0; k < size; k++) {
        const root = Math.sqrt(emission[k]);
        let weight = root;
        for (let power = 1; power < roots; power++) weight *= root;
        emission[k] = 1 / weight;
      }
    } else {
      for (let k = 0; k < size; k++) emission[k] = Math.exp(-3 * share * Math.log(emission[k]));
    }
    for (const { fix, alongTrack, sd } of pins) {
      if (fix !== this.knots[knot]) continue;
      for (let k = 0; k < size; k++) {
        const r = (bin[k] * bins.spacing - alongTrack) / sd;
        // not so far down that several pins on one fix could leave nothing
        emission[k] = Math.max(emission[k] * Math.exp((r * r) / -2), 1e-200);
      }
    }
  }

  /** As much of a whole fix as a knot counts. */
  #share(knot: number): number {
    const elapsed = knot > 0 ? this.clock[knot] - this.clock[knot - 1] : FORGOTTEN;
    return Math.min(Math.max(elapsed, 1) / FORGOTTEN, 1);
  }

  /** What the worst fit weighs where a fix counts so much of a whole one. */
  #least(share: number): number {
    if (share !== this.#shareBefore) {
      this.#shareBefore = share;
      this.#leastBefore = WILDEST ** share;
    }
    return this.#leastBefore;
  }

  /**
   * Finds the bins within a distance, of each pass all or those around its foot; returns how many.
   *
   * @param origin - The bin from which skips lead here, if copies of a pass further on or back are to be left out.
   */
  #landings(
    x: number,
    y: number,
    z: number,
    distance: number,
    first: number,
    last: number,
    thin: boolean,
    origin = -1,
  ): number {
    const near = this.#near;
    const squares = this.#squares;
    const feet = this.#feet;
    const ends = this.#ends;
    const { every } = this;
    const found = this.#find(x, y, z, distance, first, last);
    let passes = 0;
    for (let k = 0; k < found; passes++) {
      let foot = k++;
      for (; k < found && near[k] === near[k - 1] + 1; k++) if (squares[k] < squares[foot]) foot = k;
      feet[passes] = foot;
      ends[passes] = k;
    }
    let kept = 0;
    let k = 0;
    for (let pass = 0; pass < passes; pass++) {
      const most = thin ? squares[feet[pass]] + this.#around : Infinity;
      if (origin >= 0 && this.#copied(pass, passes, origin)) k = ends[pass];
      for (; k < ends[pass]; k++) if (near[k] % every === 0 && squares[k] <= most) this.#kept[kept++] = near[k];
    }
    return kept;
  }

  /** Writes the bins within a distance as `Bins` does: most often they are among those gathered for a fix before. */
  #find(x: number, y: number, z: number, distance: number, first: number, last: number): number {
    const { bins } = this;
    const { x: binX, y: binY, z: binZ } = bins;
    const near = this.#near;
    const squares = this.#squares;
    const gathered = this.#gathered;
    const moved = (x - this.#x) ** 2 + (y - this.#y) ** 2 + (z - this.#z) ** 2;
    if (distance > this.#within || first < this.#first || last > this.#last || moved > ROAM * ROAM) {
      [this.#x, this.#y, this.#z, this.#within] = [x, y, z, distance];
      this.#first = Math.max(first - SPARE, 0);
      this.#last = Math.min(last + SPARE, bins.count - 1);
      this.#count = bins.near(x, y, z, distance + ROAM, gathered, squares, this.#first, this.#last);
    }
    const limit = (distance + bins.spacing / 2) ** 2;
    let found = 0;
    for (let k = 0, count = this.#count; k < count; k++) {
      const bin = gathered[k];
      const dx = binX[bin] - x;
      const dy = binY[bin] - y;
      const dz = binZ[bin] - z;
      const square = dx * dx + dy * dy + dz * dz;
      if (square > limit || bin < first || bin > last) continue;
      near[found] = bin;
      squares[found++] = square;
    }
    return found;
  }

  /** Whether so many passes of the same place lie between a pass and the origin, and another beyond it. */
  #copied(pass: number, passes: number, origin: number): boolean {
    const { x, y, z, spacing } = this.bins;
    const bin = this.#near[this.#feet[pass]];
    const same = (other: number) => {
      const foot = this.#near[this.#feet[other]];
      return this.bins.square(foot, x[bin], y[bin], z[bin]) <= spacing * spacing;
    };
    const back = bin > origin ? -1 : 1;
    let copies = 0;
    for (let other = pass + back; other >= 0 && other < passes && copies < COPIES; other += back) {
      if (this.#near[this.#feet[other]] > origin !== bin > origin) break;
      if (same(other)) copies++;
    }
    if (copies < COPIES) return false;
    for (let other = pass - back; other >= 0 && other < passes; other -= back) if (same(other)) return true;
    return false;
  }
}
