import { TOLERANCE } from './BandPieces';

/** By so much more than a chord, at the most, the distance changes along it. */
const STRETCH = 1 + 1e-6;

/** The same where distances are those of a sphere, and metres by which they jump to those: over 100 km. */
const FARTHER_STRETCH = 1.01;
const FARTHER_STEP = 2;
const NEARLY_FARTHER = 90_000;

/** How much the distance from another line can change along a way: no faster than the way goes. */
export class ChangeAlong {
  readonly #isFar: boolean;

  /** @param width - Metres, about which distances are looked at. */
  constructor(width: number) {
    this.#isFar = width > NEARLY_FARTHER;
  }

  /** By how much the distance can change along so many metres. */
  over(length: number): number {
    return this.#isFar ? length * FARTHER_STRETCH + FARTHER_STEP : length * STRETCH + TOLERANCE;
  }

  /** Metres along which the distance changes by no more than so much. */
  wayOf(change: number): number {
    return this.#isFar ? (change - FARTHER_STEP) / FARTHER_STRETCH : (change - TOLERANCE) / STRETCH;
  }
}
