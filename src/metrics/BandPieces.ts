import { Sum } from '../geodesy';
import { FAR_SHARE } from './shareOf';

/** Distances up to this much over a width count as within, metres: ten times the last bits of earth-centred coordinates. */
export const TOLERANCE = 1e-8;

/** What is seen in a plane may be off by this, metres. */
const ROOM = 1e-6;

/**
 * What of a line is within a lower width, and the pieces of it that lie between that and an upper width, each with the squared
 * distance along it as a function, `bend` (x − `foot`)² + `rest`, and its weight a metre.
 */
export class BandPieces {
  readonly low: number;
  readonly high: number;
  /** What is seen farther off than this is over the upper width: metres. */
  readonly most: number;
  /** Whether what lies between the widths isn't told how far, as these are so near to each other. */
  readonly isNarrow: boolean;
  readonly #inside = new Sum();
  #between = 0;
  #farthest2 = 0;
  readonly #froms: number[] = [];
  readonly #tos: number[] = [];
  readonly #bends: number[] = [];
  readonly #feet: number[] = [];
  readonly #rests: number[] = [];
  readonly #scales: number[] = [];

  /** @param enough - Metres: between widths no further apart, it isn't told how far a place is. */
  constructor(low: number, high: number, enough: number) {
    this.low = low;
    this.high = high;
    this.most = high * (1 + 2 * FAR_SHARE) + ROOM;
    this.isNarrow = high - low <= enough;
  }

  /** What is within the lower width. */
  get inside(): number {
    return this.#inside.value;
  }

  /** What lies between the widths and isn't told how far. */
  get between(): number {
    return this.#between;
  }

  /** How many pieces lie between the widths. */
  get count(): number {
    return this.#froms.length;
  }

  /** The greatest distance of any of them. */
  get farthest(): number {
    return this.#between > 0 ? this.high : Math.sqrt(this.#farthest2);
  }

  /** The weight of a piece. */
  weightOf(piece: number): number {
    return this.#scales[piece] * (this.#tos[piece] - this.#froms[piece]);
  }

  /** How much of some pieces, the first so many listed, is within a width, together and each by itself. */
  within(open: Int32Array, count: number, width: number, parts: Float64Array): number {
    const wide2 = (width + TOLERANCE) ** 2;
    let within = 0;
    for (let k = 0; k < count; k++) {
      const piece = open[k];
      const room = wide2 - this.#rests[piece];
      let part = 0;
      if (room >= 0) {
        const bend = this.#bends[piece];
        const half = bend > 0 ? Math.sqrt(room / bend) : Infinity;
        const foot = this.#feet[piece];
        const length = Math.min(this.#tos[piece], foot + half) - Math.max(this.#froms[piece], foot - half);
        if (length > 0) part = this.#scales[piece] * length;
      }
      parts[k] = part;
      within += part;
    }
    return within;
  }

  /** Takes in so much that is within the lower width. */
  hold(weight: number): void {
    this.#inside.add(weight);
  }

  /** Takes in so much that lies between the widths, not told how far. */
  leave(weight: number): void {
    this.#between += weight;
  }

  /** A piece and the square of the distance along it. */
  note(from: number, to: number, bend: number, foot: number, rest: number, scale: number): void {
    const farther = Math.max(Math.abs(from - foot), Math.abs(to - foot));
    const farthest2 = bend * farther * farther + rest;
    if (farthest2 <= this.low * this.low) {
      this.hold(scale * (to - from));
      return;
    }
    const nearer = foot < from ? from - foot : foot > to ? foot - to : 0;
    if (bend * nearer * nearer + rest > (this.high + TOLERANCE) ** 2) return;
    this.#farthest2 = Math.max(this.#farthest2, farthest2);
    this.#froms.push(from);
    this.#tos.push(to);
    this.#bends.push(bend);
    this.#feet.push(foot);
    this.#rests.push(rest);
    this.#scales.push(scale);
  }
}
