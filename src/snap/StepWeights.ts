import { FASTEST, furthestIn, SLACK } from './furthestIn';
import type { KnotStates } from './KnotStates';
import type { LatticeStates } from './LatticeStates';
import { upperMedian } from './upperMedian';

/** Slower than this, in metres a second, counts as standing when the pace is asked for. */
export const STANDING = 0.5;

/** Steps to either side that say what the pace is of one longer than so many seconds; of them none that is too long. */
export const NEIGHBOURS = 15;
export const LONG = 7.5;
export const TOO_LONG = 90;

/** Displacements wander from what the route says by this many metres in a second, and with the root of time. */
const WANDER = 2.5;

/** Seconds in which the error of a receiver is taken to forget itself. */
const CORRELATION = 20;

/** An interruption may hide this many seconds, even where the clock shows none: it may have stood still. */
const BREAK = 60;

/** A step counts in full against the pace from this many seconds on: before, the displacement says more. */
const PACE_COUNTS = 30;

/** Steps back of more than this, in metres, are skips. */
const BACKWARDS = 300;

/** Metres that a fix leaps further than a body could, for each of which a skip is as much less likely: e-fold. */
const LEAP = 5;
const WILDEST = Math.exp(-9);

/** Price of a metre back along the route. */
const BACK_PRICE = 0.1;

/** However little a step moves as its fixes do, so much more it weighs: a receiver gone wild. */
const WILD_STEP = Math.exp(-9);

/** How steps from knot to knot are weighed: the pace of the steps around, the time it took, a price on going back. */
export class StepWeights {
  /** The least number of bins moved, negative when backwards, and the greatest. */
  lowest = 0;
  highest = 0;
  /** Weight of each number of bins moved, from the lowest up. */
  weights = new Float64Array(64);
  /** One over four times the variance of a displacement, per axis: a Student's t with 4 degrees of freedom. */
  spread = 0;
  /** How much likelier or less likely than usual it is that a stretch is left out or gone over again here. */
  skip = 1;
  readonly #states: LatticeStates;
  /** Seconds of the step into each knot, metres that the fix moved, and metres a second to be expected. */
  readonly #elapsed: Float32Array;
  readonly #moved: Float32Array;
  readonly #pace: Float32Array;
  /** Scratch: of each state of the knot before where it lies from its fix, and what it weighs. */
  #packed = new Float64Array();

  constructor(states: LatticeStates) {
    this.#states = states;
    const size = states.clock.length;
    const knots = states.knots.length;
    this.#elapsed = new Float32Array(size);
    this.#moved = new Float32Array(size);
    const speed = new Float32Array(size);
    const around = new Float64Array(size);
    let count = 0;
    for (let knot = 1; knot < knots; knot++) {
      this.#measure(knot);
      speed[knot] = this.#moved[knot] / this.#elapsed[knot];
      if (speed[knot] > STANDING) around[count++] = speed[knot];
    }
    this.#pace = new Float32Array(size).fill(count > 0 ? upperMedian(around.subarray(0, count)) : 0);
    for (let knot = 1; knot < knots; knot++) {
      if (this.#elapsed[knot] <= LONG) continue;
      count = 0;
      for (let k = Math.max(knot - NEIGHBOURS, 1); k <= Math.min(knot + NEIGHBOURS, knots - 1); k++) {
        if (k !== knot && speed[k] > STANDING && this.#elapsed[k] <= TOO_LONG) around[count++] = speed[k];
      }
      if (count > 2) this.#pace[knot] = upperMedian(around.subarray(0, count));
    }
  }

  /** Takes the step into a knot that has been written since, and what its pace is thought to be, metres a second. */
  take(knot: number, pace: number): void {
    this.#measure(knot);
    this.#pace[knot] = pace;
  }

  /** Metres to be expected of the step into a knot. */
  expected(knot: number): number {
    return this.#pace[knot] * this.#elapsed[knot];
  }

  /** Metres that the fix of a knot lies from that of the knot before. */
  moved(knot: number): number {
    return this.#moved[knot];
  }

  #measure(knot: number): void {
    const { x, y, z, clock } = this.#states;
    this.#elapsed[knot] = Math.max(clock[knot] - clock[knot - 1], 1);
    const [dx, dy, dz] = [x[knot] - x[knot - 1], y[knot] - y[knot - 1], z[knot] - z[knot - 1]];
    this.#moved[knot] = Math.sqrt(dx * dx + dy * dy + dz * dz);
  }

  /** Takes the step into a knot, to say how far it may lead: as far as a body gets in the time. */
  reach(knot: number): void {
    const { spacing, count } = this.#states.bins;
    const seconds = this.#elapsed[knot];
    const expected = this.#pace[knot] * seconds;
    // where the clock may have stood still, a body that is elsewhere has moved
    const unseen = this.#states.interrupted[knot] === 1 ? 1.5 * this.#moved[knot] : 0;
    const furthest = furthestIn(seconds, this.#pace[knot]) + unseen;
    this.lowest = -Math.min(Math.ceil(Math.min(1.5 * expected + SLACK + unseen, BACKWARDS) / spacing), count);
    this.highest = Math.min(Math.ceil(furthest / spacing), count);
  }

  /**
   * Weighs the step into a knot.
   *
   * @param sigma - Standard deviation of a fix where the step begins, metres per axis.
   */
  moveTo(knot: number, sigma: number): void {
    this.reach(knot);
    const { every, bins } = this.#states;
    const { spacing } = bins;
    const seconds = this.#elapsed[knot];
    const moved = this.#moved[knot];
    const expected = this.#pace[knot] * seconds;
    const size = this.highest - this.lowest + 1;
    if (size > this.weights.length) this.weights = new Float64Array(2 * size);
    const counts = Math.min(seconds / PACE_COUNTS, 1) / (0.5 * expected + 10);
    // exponentials of straight lines, from bin to bin: back along the route, on up to what is expected, and beyond
    const { weights, lowest } = this;
    const nearer = Math.exp(counts * spacing);
    const lessBack = Math.exp((counts + BACK_PRICE) * spacing);
    const further = 1 / nearer;
    const middle = Math.min(Math.max(Math.ceil(expected / spacing) - lowest, 0), size);
    let weight = Math.exp(-counts * (expected - lowest * spacing) + BACK_PRICE * lowest * spacing);
    for (let k = 0; k < middle; k++) {
      weights[k] = weight;
      weight *= lowest + k < 0 ? lessBack : nearer;
    }
    weight = Math.exp(-counts * ((lowest + middle) * spacing - expected));
    for (let k = middle; k < size; k++) {
      weights[k] = weight;
      weight *= further;
    }
    const interrupted = this.#states.interrupted[knot] === 1;
    const leap = Math.max(moved - FASTEST * seconds - SLACK, 0);
    const unseen = interrupted || leap > 0 ? Math.max(seconds, BREAK) : seconds;
    const variance =
      WANDER * WANDER * unseen + 2 * sigma * sigma * (1 - Math.exp(-unseen / CORRELATION)) + (every * spacing) ** 2 / 6;
    this.spread = 1 / (4 * variance);
    // a body that leaves the route for another part of it gets there as its fixes do: no leap takes it there
    this.skip = interrupted ? 1 : Math.max(Math.exp(-leap / LEAP), WILDEST);
  }

  /**
   * Takes on what steps carry from the states of the knot before to those here, where it is more than what jumps did: the
   * heaviest path, and the sum of all. How much the route moves otherwise than the fixes is how much further the one state
   * lies from its fix than the other.
   */
  forward(before: KnotStates, here: KnotStates): void {
    const { size: sizeBefore, bin: binBefore, x: fromX, y: fromY, z: fromZ, best: bestBefore, sum: sumBefore } = before;
    const { size, bin: binHere, x, y, z, skip, best, sum, came } = here;
    const { lowest, highest, weights, spread } = this;
    if (5 * sizeBefore > this.#packed.length) this.#packed = new Float64Array(10 * sizeBefore);
    const packed = this.#packed;
    for (let i = 0, p = 0; i < sizeBefore; i++, p += 5) {
      packed[p] = fromX[i];
      packed[p + 1] = fromY[i];
      packed[p + 2] = fromZ[i];
      packed[p + 3] = bestBefore[i];
      packed[p + 4] = sumBefore[i];
    }
    let low = 0;
    for (let j = 0; j < size; j++) {
      const bin = binHere[j];
      while (low < sizeBefore && binBefore[low] < bin - highest) low++;
      const toX = x[j];
      const toY = y[j];
      const toZ = z[j];
      let top = best[j] * skip[j];
      let total = sum[j] * skip[j];
      let from = came[j];
      for (let i = low, p = 5 * low; i < sizeBefore; i++, p += 5) {
        const step = bin - binBefore[i] - lowest;
        if (step < 0) break;
        const dx = toX - packed[p];
        const dy = toY - packed[p + 1];
        const dz = toZ - packed[p + 2];
        const tail = 1 + (dx * dx + dy * dy + dz * dz) * spread;
        const weight = weights[step] * (1 / (tail * tail * tail) + WILD_STEP);
        const value = packed[p + 3] * weight;
        if (value > top) {
          top = value;
          from = i;
        }
        total += packed[p + 4] * weight;
      }
      best[j] = top;
      sum[j] = total;
      came[j] = from;
    }
  }

  /** The other way in time: adds to each state here what the states of the next knot give back to it. */
  backward(next: KnotStates, here: KnotStates): void {
    const { size: sizeNext, bin: binNext, x: toX, y: toY, z: toZ, best: given } = next;
    const { size, bin: binHere, x, y, z, best: onward } = here;
    const { lowest, highest, weights, spread } = this;
    let low = 0;
    for (let i = 0; i < size; i++) {
      const bin = binHere[i];
      while (low < sizeNext && binNext[low] < bin + lowest) low++;
      const fromX = x[i];
      const fromY = y[i];
      const fromZ = z[i];
      let total = onward[i];
      for (let j = low; j < sizeNext; j++) {
        const step = binNext[j] - bin;
        if (step > highest) break;
        const dx = toX[j] - fromX;
        const dy = toY[j] - fromY;
        const dz = toZ[j] - fromZ;
        const tail = 1 + (dx * dx + dy * dy + dz * dz) * spread;
        total += given[j] * weights[step - lowest] * (1 / (tail * tail * tail) + WILD_STEP);
      }
      onward[i] = total;
    }
  }
}
