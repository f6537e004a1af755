import type { Bins } from './Bins';
import { type Crossing, crossingNear, WITHIN } from './crossingNear';
import type { KnotStates } from './KnotStates';
import { SAME_PART } from './pathShares';

/** What is said of the step into a knot. */
interface StepTaken {
  readonly seconds: number;
  /** Bins that it may have led on: what lies beyond was not ridden to. */
  readonly lowest: number;
  readonly highest: number;
}

/** A knot that a fix not settled yet lies at or after. */
export interface RecentKnot extends StepTaken {
  /** Its states: their bins, and the state of the knot before on the heaviest path into each, -1 where that begins there. */
  readonly bin: readonly number[];
  readonly came: readonly number[];
}

/** Room for so many states at first; it grows. */
const ROOM = 256;

/** The latest knots, the way back along the paths that lead on, and how sure each place on it is. */
export class RecentKnots {
  readonly #part: number;
  readonly #bins: Bins;
  readonly #list: StepTaken[] = [];
  /** Of each in the list, where its states begin in the columns, and where the last ones end. */
  readonly #begins: number[] = [0];
  #bin = new Int32Array(ROOM);
  #came = new Int32Array(ROOM);
  /** Scratch: states of a knot and the shares of each, and those of the states before, 0 between two uses. */
  #states = new Int32Array(ROOM);
  #shares = new Float64Array(ROOM);
  #given = new Float64Array(ROOM);
  /** Number of the first of the list, counted from the first knot of all. */
  #first: number;
  /** Of each in the list, as seen from the last: its bin, and the share of paths on that part. Empty until asked for. */
  #place: number[] = [];
  #share: number[] = [];
  /** Where the pass that was left before it crosses the one that was come to. */
  #crossing: (Crossing | undefined)[] = [];

  constructor(bins: Bins, first = 0, list: readonly RecentKnot[] = []) {
    this.#part = Math.ceil(SAME_PART / bins.spacing);
    this.#bins = bins;
    this.#first = first;
    for (const { seconds, lowest, highest, bin, came } of list)
      this.#add(seconds, lowest, highest, bin.length, bin, came);
  }

  /** How many there have been. */
  get count(): number {
    return this.#first + this.#list.length;
  }

  /** Adds a knot with the states that are worth going on from. */
  add(seconds: number, lowest: number, highest: number, { size, bin, came }: KnotStates): void {
    this.#add(seconds, lowest, highest, size, bin, came);
  }

  /** Forgets the knots before one. */
  forget(knot: number): void {
    const gone = Math.min(knot - this.#first, this.#list.length - 1);
    if (gone <= 0) return;
    this.#list.splice(0, gone);
    this.#place.splice(0, gone);
    this.#share.splice(0, gone);
    this.#crossing.splice(0, gone);
    this.#begins.splice(0, gone);
    const begin = this.#begins[0];
    this.#bin.copyWithin(0, begin);
    this.#came.copyWithin(0, begin);
    for (let k = 0; k < this.#begins.length; k++) this.#begins[k] -= begin;
    this.#first += gone;
  }

  at(knot: number): StepTaken {
    return this.#list[knot - this.#first];
  }

  /** The bin of a knot on the heaviest path to the last, given the states of that. */
  placeOf(knot: number, last: KnotStates): number {
    this.#look(last);
    return this.#place[knot - this.#first];
  }

  /** The share of all paths that pass there. */
  shareOf(knot: number, last: KnotStates): number {
    this.#look(last);
    return this.#share[knot - this.#first];
  }

  /** Where a stretch was left out before a knot, the crossing at which it was, if it was at one. */
  crossingTo(knot: number, last: KnotStates): Crossing | undefined {
    this.#look(last);
    return this.#crossing[knot - this.#first];
  }

  save(): { readonly first: number; readonly list: readonly RecentKnot[] } {
    const column = (values: Int32Array, k: number) => Array.from(values.subarray(this.#begins[k], this.#begins[k + 1]));
    const list = this.#list.map((step, k) => ({ ...step, bin: column(this.#bin, k), came: column(this.#came, k) }));
    return { first: this.#first, list };
  }

  #add(
    seconds: number,
    lowest: number,
    highest: number,
    size: number,
    bin: ArrayLike<number>,
    came: ArrayLike<number>,
  ): void {
    const begin = this.#begins[this.#begins.length - 1];
    if (begin + size > this.#bin.length) {
      this.#bin = roomFor(begin + size, this.#bin);
      this.#came = roomFor(begin + size, this.#came);
      const room = this.#bin.length;
      this.#states = new Int32Array(room);
      this.#shares = new Float64Array(room);
      this.#given = new Float64Array(room);
    }
    for (let k = 0; k < size; k++) {
      this.#bin[begin + k] = bin[k];
      this.#came[begin + k] = came[k];
    }
    this.#begins.push(begin + size);
    this.#list.push({ seconds, lowest, highest });
    this.#place.length = 0;
  }

  #look({ size, best, sum }: KnotStates): void {
    const last = this.#list.length - 1;
    if (this.#place.length > last) return;
    const begins = this.#begins;
    const bins = this.#bin;
    /** The states of a knot that paths lead on from, and the share of each; of those that begin later where they do. */
    const states = this.#states;
    const shares = this.#shares;
    let count = size;
    const begun: { readonly bin: number; readonly share: number }[] = [];
    let heaviest = 0;
    let all = 0;
    for (let k = 0; k < size; k++) {
      if (best[k] > best[heaviest]) heaviest = k;
      all += sum[k];
      states[k] = k;
      shares[k] = sum[k];
    }
    let place = 0;
    for (let at = last; at >= 0; at--) {
      const begin = begins[at];
      if (heaviest >= 0) place = bins[begin + heaviest];
      let same = 0;
      for (let k = 0; k < count; k++) {
        if (Math.abs(bins[begin + states[k]] - place) <= this.#part) same += shares[k];
      }
      for (const one of begun) if (Math.abs(one.bin - place) <= this.#part) same += one.share;
      this.#place[at] = place;
      this.#share[at] = size > 0 ? same / all : 0;
      if (at === 0) break;
      if (heaviest >= 0) heaviest = this.#came[begin + heaviest];
      // paths from one state are one from there on back: few are left after a knot or two
      const given = this.#given;
      let left = 0;
      for (let k = 0; k < count; k++) {
        if (shares[k] === 0) continue;
        const from = this.#came[begin + states[k]];
        if (from < 0) begun.push({ bin: bins[begin + states[k]], share: shares[k] });
        else {
          if (given[from] === 0) states[left++] = from;
          given[from] += shares[k];
        }
      }
      count = left;
      for (let k = 0; k < count; k++) {
        shares[k] = given[states[k]];
        given[states[k]] = 0;
      }
    }
    this.#leapAtCrossings();
  }

  /** Moves where one pass was left for another to where the two cross, as `skipsAtCrossings` does with hindsight. */
  #leapAtCrossings(): void {
    const place = this.#place;
    const list = this.#list;
    const within = WITHIN / this.#bins.spacing;
    this.#crossing.length = 0;
    for (let at = 1; at < list.length; at++) {
      const step = place[at] - place[at - 1];
      if (step >= list[at].lowest && step <= list[at].highest) continue;
      // as fast as it came
      const seconds = list[at].seconds - list[at - 1].seconds;
      const before = at > 1 ? list[at - 1].seconds - list[at - 2].seconds : 0;
      const expected = before > 0 ? Math.max(((place[at - 1] - place[at - 2]) * seconds) / before, 0) : 0;
      const onwards = step - Math.round(expected);
      const crossing = crossingNear(this.#bins, place[at - 1], place[at - 1] + onwards, place[at] - onwards);
      if (crossing === undefined) continue;
      const { left, right } = crossing;
      const last = this.#bins.count - 1;
      let first = at;
      for (; first > 0 && place[first - 1] > left && place[first - 1] - left <= within; first--) {
        place[first - 1] = Math.min(place[first - 1] + right - left, last);
      }
      for (; first === at && at < list.length && place[at] < right && right - place[at] <= within; at++, first++) {
        place[at] = Math.max(place[at] + left - right, 0);
      }
      this.#crossing[first] = crossing;
    }
  }
}

/** A column and as much room again, for so many at least. */
function roomFor(size: number, column: Int32Array): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(Math.max(size, 2 * column.length));
  larger.set(column);
  return larger;
}
