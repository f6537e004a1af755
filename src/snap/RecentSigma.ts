import type { Route } from '../model';
import type { Bins } from './Bins';
import { FIRST_SIGMA, sectionSigma } from './sectionSigma';

/**
 * Seconds between the fixes that say what the receiver is like, as `sectionSigma` wants them. It is asked after so many new ones,
 * and a share of those that are remembered: what an hour says doesn't change in a minute. On a line of many bins it is a larger
 * share, as all of them are written.
 */
const EVERY = 15;
const TOGETHER = 4;
const SHARE = 0.1;
const LARGEST_SHARE = 0.5;
const BINS = 1_000_000;

/** How many are remembered: an hour. */
const MOST = 240;

/** What is written of a {@link RecentSigma}: where fixes were matched, how far aside, and how many haven't been asked yet. */
export interface SavedSigma {
  readonly bin: readonly number[];
  readonly aside: readonly number[];
  readonly waiting: number;
  readonly seconds: number | null;
}

const begun: SavedSigma = { bin: [], aside: [], waiting: 0, seconds: null };

/** What the receiver is like by its last hour, section by section. */
export class RecentSigma {
  /** Standard deviation of a fix at each bin, metres per axis, and the largest. */
  readonly values: Float64Array;
  largest: number;
  readonly #learns: boolean;
  readonly #route: Route;
  readonly #bins: Bins;
  readonly #bin: number[];
  readonly #aside: number[];
  #waiting: number;
  #seconds: number | null;

  /** @param own - The standard deviation that the user knows: nothing is learnt then. */
  constructor(route: Route, bins: Bins, own: number | undefined, { bin, aside, waiting, seconds }: SavedSigma = begun) {
    this.#route = route;
    this.#bins = bins;
    this.#bin = [...bin];
    this.#aside = [...aside];
    this.#waiting = waiting;
    this.#seconds = seconds;
    this.#learns = own === undefined;
    this.largest = own ?? FIRST_SIGMA;
    this.values = new Float64Array(bins.count).fill(this.largest);
    if (bin.length > waiting) this.#estimate(bin.length - waiting);
  }

  /** Takes a fix matched to a bin, so many metres aside; returns whether the receiver is thought to be otherwise now. */
  add(seconds: number, bin: number, aside: number): boolean {
    if (!this.#learns) return false;
    if (this.#seconds !== null && seconds - this.#seconds < EVERY) return false;
    this.#seconds = seconds;
    this.#bin.push(bin);
    this.#aside.push(aside);
    const share = Math.min(SHARE + this.#bins.count / BINS, LARGEST_SHARE);
    if (++this.#waiting < Math.max(TOGETHER, share * this.#bin.length)) return false;
    this.#waiting = 0;
    const gone = Math.max(this.#bin.length - MOST, 0);
    this.#bin.splice(0, gone);
    this.#aside.splice(0, gone);
    this.#estimate(this.#bin.length);
    return true;
  }

  save(): SavedSigma {
    return { bin: [...this.#bin], aside: [...this.#aside], waiting: this.#waiting, seconds: this.#seconds };
  }

  #estimate(count: number): void {
    const bin = Int32Array.from(this.#bin.slice(0, count));
    sectionSigma(this.#route, this.#bins, bin, Float64Array.from(this.#aside.slice(0, count)), this.values);
    let largest = 0;
    for (let k = 0; k < this.values.length; k++) if (this.values[k] > largest) largest = this.values[k];
    this.largest = largest;
  }
}
