import type { FixState } from '../model';
import { asideEvidence, ENOUGH } from './asideEvidence';
import { CLOSE, CLOSE_AT_ENDS, CLOSE_SIGMAS, DIP } from './fixStates';

/** What is written of a {@link RunningState}. */
export interface SavedState {
  readonly evidence: number;
  readonly begun: number | null;
  readonly last: number;
  readonly seconds: number;
  readonly off: 0 | 1;
  readonly joined: 0 | 1;
  readonly past: 0 | 1;
}

const begun: SavedState = { evidence: 0, begun: null, last: 0, seconds: 0, off: 0, joined: 0, past: 0 };

/** Where a fix lies beside the route: metres from it and along it, the seconds, and what the receiver is like there. */
export interface BesideFix {
  readonly index: number;
  /** The first of those before it that were thought to be thrown, itself where none was. */
  readonly first: number;
  readonly seconds: number;
  readonly distance: number;
  readonly foot: number;
  readonly sigma: number;
}

/**
 * What each fix is to the route, as far as the fixes before it say: what `fixStates` makes of a whole recording, from fix to
 * fix. That the fixes together are too many too far away shows only after a while; then `offFrom` says from which fix on.
 */
export class RunningState {
  /** The fix from which on all are off, those before the one last taken included; Infinity where it is not. */
  offFrom = Number.POSITIVE_INFINITY;
  readonly #length: number;
  #evidence: number;
  /** The first fix of the stretch aside, and its last fix so far and when that was; null where there is none. */
  #begun: number | null;
  #last: number;
  #seconds: number;
  #off: 0 | 1;
  #joined: 0 | 1;
  #past: 0 | 1;

  constructor(length: number, saved: SavedState = begun) {
    this.#length = length;
    this.#evidence = saved.evidence;
    this.#begun = saved.begun;
    this.#last = saved.last;
    this.#seconds = saved.seconds;
    this.#off = saved.off;
    this.#joined = saved.joined;
    this.#past = saved.past;
  }

  /** What a fix is that was thrown aside: it says nothing of those after it. */
  thrown({ distance, sigma }: BesideFix, reach: number): FixState {
    this.offFrom = Number.POSITIVE_INFINITY;
    if (this.#joined === 0) return 'before';
    if (this.#past === 1) return 'after';
    const goesOn = this.#begun !== null && this.#off === 1 && isBeyond(distance, CLOSE_SIGMAS * sigma, reach);
    return goesOn || distance > reach ? 'off' : 'on';
  }

  /** Takes a fix that is nowhere near the route. */
  away(): FixState {
    this.offFrom = Number.POSITIVE_INFINITY;
    this.#begun = null;
    if (this.#joined === 0) return 'before';
    return this.#past === 1 ? 'after' : 'off';
  }

  /**
   * Takes a fix beside the route.
   *
   * @param since - Seconds since the fix before.
   * @param reach - Metres beyond which it is off.
   * @param own - Whether that is the user's own, so that it alone decides.
   */
  take(
    { index, first, seconds, distance, foot, sigma }: BesideFix,
    since: number,
    reach: number,
    own: boolean,
  ): FixState {
    this.offFrom = Number.POSITIVE_INFINITY;
    const beyond = (sigmas: number) => isBeyond(distance, sigmas * sigma, reach);
    let off = distance > reach;
    if (beyond(CLOSE_SIGMAS)) {
      const goesOn = this.#begun !== null && seconds - this.#seconds < DIP;
      const before = this.#last;
      if (!goesOn) {
        this.#begun = first;
        this.#evidence = 0;
        this.#off = 0;
      }
      this.#evidence = asideEvidence(this.#evidence, distance, sigma, since);
      off ||= !own && this.#evidence > ENOUGH;
      // a stretch is off as a whole, what dipped towards the route included
      if (this.#off === 1) this.offFrom = before + 1;
      else if (off) this.offFrom = this.#begun!;
      if (off) this.#off = 1;
      off = this.#off === 1;
      this.#last = index;
      this.#seconds = seconds;
    } else if (this.#begun !== null && seconds - this.#seconds >= DIP) this.#begun = null;
    const past = foot === this.#length && beyond(CLOSE_AT_ENDS);
    const short = foot === 0 && beyond(CLOSE_AT_ENDS);
    if (this.#joined === 0 && (off || short)) return 'before';
    this.#past = past ? 1 : 0;
    if (past) return 'after';
    if (!off) this.#joined = 1;
    return off ? 'off' : 'on';
  }

  save(): SavedState {
    return {
      evidence: this.#evidence,
      begun: this.#begun,
      last: this.#last,
      seconds: this.#seconds,
      off: this.#off,
      joined: this.#joined,
      past: this.#past,
    };
  }
}

/** Whether a fix lies further off than the errors of its receiver make it, metres. */
function isBeyond(distance: number, errors: number, reach: number): boolean {
  return distance > Math.min(Math.max(errors, CLOSE), reach);
}
