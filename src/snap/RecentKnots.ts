import type { Bins } from './Bins';
import type { KnotStates } from './KnotStates';
import { SAME_PART } from './pathShares';

/** A knot that a fix not settled yet lies at or after. */
export interface RecentKnot {
  readonly seconds: number;
  /** Bins that the step into it may have led on: what lies beyond was not ridden to. */
  readonly lowest: number;
  readonly highest: number;
  /** Its states: their bins, and the state of the knot before on the heaviest path into each, -1 where that begins there. */
  readonly bin: readonly number[];
  readonly came: readonly number[];
}

/** The latest knots, the way back along the paths that lead on, and how sure each place on it is. */
export class RecentKnots {
  readonly #part: number;
  readonly #list: RecentKnot[];
  /** Number of the first of the list, counted from the first knot of all. */
  #first: number;
  /** Of each in the list, as seen from the last: its bin, and the share of paths on that part. Empty until asked for. */
  #place: number[] = [];
  #share: number[] = [];

  constructor(bins: Bins, first = 0, list: readonly RecentKnot[] = []) {
    this.#part = Math.ceil(SAME_PART / bins.spacing);
    this.#first = first;
    this.#list = [...list];
  }

  /** How many there have been. */
  get count(): number {
    return this.#first + this.#list.length;
  }

  /** Adds a knot with the states that are worth going on from. */
  add(seconds: number, lowest: number, highest: number, { size, bin, came }: KnotStates): void {
    const bins = new Array<number>(size);
    const from = new Array<number>(size);
    for (let k = 0; k < size; k++) {
      bins[k] = bin[k];
      from[k] = came[k];
    }
    this.#list.push({ seconds, lowest, highest, bin: bins, came: from });
    this.#place.length = 0;
  }

  /** Forgets the knots before one. */
  forget(knot: number): void {
    const gone = Math.min(knot - this.#first, this.#list.length - 1);
    if (gone <= 0) return;
    this.#list.splice(0, gone);
    this.#place.splice(0, gone);
    this.#share.splice(0, gone);
    this.#first += gone;
  }

  at(knot: number): RecentKnot {
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

  save(): { readonly first: number; readonly list: readonly RecentKnot[] } {
    return { first: this.#first, list: [...this.#list] };
  }

  #look({ size, best, sum }: KnotStates): void {
    const list = this.#list;
    if (this.#place.length === list.length) return;
    let heaviest = 0;
    let all = 0;
    for (let k = 0; k < size; k++) {
      if (best[k] > best[heaviest]) heaviest = k;
      all += sum[k];
    }
    /** Of each state of the last knot, the state of a knot on the way to it, and its bin; beyond where a path begins the first. */
    const state = Array.from({ length: size }, (_, k) => k);
    const bin = [...list[list.length - 1].bin];
    for (let at = list.length - 1; at >= 0; at--) {
      const place = bin[heaviest];
      let same = 0;
      for (let k = 0; k < size; k++) if (Math.abs(bin[k] - place) <= this.#part) same += sum[k];
      this.#place[at] = place;
      this.#share[at] = size > 0 ? same / all : 0;
      if (at === 0) break;
      for (let k = 0; k < size; k++) {
        if (state[k] < 0) continue;
        state[k] = list[at].came[state[k]];
        if (state[k] >= 0) bin[k] = list[at - 1].bin[state[k]];
      }
    }
  }
}
