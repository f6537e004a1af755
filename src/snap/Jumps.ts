import type { KnotStates } from './KnotStates';

/** Weight of going on at another part of the route, ahead or back: bodies don't, but for good. */
const AHEAD = Math.exp(-22);
const BACK = Math.exp(-30);

/** Cost of a metre left out by a jump ahead, or gone over again by a jump back. */
const METRE = 0.005;

/** Bins ahead or back of which it is listed what is left of a weight; of more it is worked out. */
const LISTED = 128;

/** However far it leads, and however badly it fits what it leaves, a jump weighs no less where the body seems to be lost. */
const LEAST = Math.exp(-40);

/**
 * What jumps along the route carry from the states of one knot to those of another, at a price that grows with their
 * length: in one sweep over the states for those from below and one for those from above. What it is worth to jump from
 * a state is counted here, what it is worth to jump to one is not.
 */
export class Jumps {
  /** What is left of a weight after so many bins. */
  readonly #left: Float64Array;

  constructor(spacing: number) {
    this.#left = new Float64Array(LISTED);
    for (let bins = 0; bins < LISTED; bins++) this.#left[bins] = Math.exp(-METRE * spacing * bins);
  }

  /**
   * Writes the most that one state of the knot before carries to each state here, which one that is, and the sum of what all
   * carry to it, but for what it is worth to jump to it.
   */
  forward(before: KnotStates, here: KnotStates, scale: number): void {
    const { size: sizeBefore, bin: binBefore, skip, best: bestBefore, sum: sumBefore, lost } = before;
    const { size, bin: binHere, best, sum, came } = here;
    const listed = this.#left;
    const wide = lost ? LEAST * scale : 0;
    let heaviest = 0;
    let widely = 0;
    let all = 0;
    if (lost) {
      for (let i = 0; i < sizeBefore; i++) {
        if (bestBefore[i] > bestBefore[heaviest]) heaviest = i;
        all += sumBefore[i];
      }
      widely = bestBefore[heaviest] * wide;
    }
    const up = AHEAD * scale;
    let i = 0;
    let top = 0;
    let total = 0;
    let at = binHere[0];
    let source = 0;
    for (let j = 0; j < size; j++) {
      const bin = binHere[j];
      const rest = left(listed, bin - at);
      top *= rest;
      total *= rest;
      at = bin;
      for (; i < sizeBefore && binBefore[i] < bin; i++) {
        const carried = skip[i] * up * left(listed, bin - binBefore[i]);
        total += sumBefore[i] * carried;
        if (bestBefore[i] * carried <= top) continue;
        top = bestBefore[i] * carried;
        source = i;
      }
      best[j] = Math.max(top, widely);
      came[j] = top > widely ? source : heaviest;
      sum[j] = total + all * wide;
    }
    const down = BACK * scale;
    i = sizeBefore - 1;
    top = 0;
    total = 0;
    for (let j = size - 1; j >= 0; j--) {
      const bin = binHere[j];
      const rest = left(listed, at - bin);
      top *= rest;
      total *= rest;
      at = bin;
      for (; i >= 0 && binBefore[i] >= bin; i--) {
        const carried = skip[i] * down * left(listed, binBefore[i] - bin);
        total += sumBefore[i] * carried;
        if (bestBefore[i] * carried <= top) continue;
        top = bestBefore[i] * carried;
        source = i;
      }
      sum[j] += total;
      if (top <= best[j]) continue;
      best[j] = top;
      came[j] = source;
    }
  }

  /** The other way in time: writes the sum of what the states of the next knot give back to each state here. */
  backward(next: KnotStates, here: KnotStates, scale: number): void {
    const { size: sizeNext, bin: binNext, skip: worth, best: given } = next;
    const { size, bin: binHere, skip, best: onward, lost } = here;
    const listed = this.#left;
    let all = 0;
    if (lost) for (let j = 0; j < sizeNext; j++) all += given[j] * worth[j];
    const down = BACK * scale;
    let j = 0;
    let total = 0;
    let at = binHere[0];
    for (let i = 0; i < size; i++) {
      const bin = binHere[i];
      total *= left(listed, bin - at);
      at = bin;
      for (; j < sizeNext && binNext[j] <= bin; j++) {
        total += given[j] * worth[j] * down * left(listed, bin - binNext[j]);
      }
      onward[i] = total;
    }
    const up = AHEAD * scale;
    j = sizeNext - 1;
    total = 0;
    for (let i = size - 1; i >= 0; i--) {
      const bin = binHere[i];
      total *= left(listed, at - bin);
      at = bin;
      for (; j >= 0 && binNext[j] > bin; j--) {
        total += given[j] * worth[j] * up * left(listed, binNext[j] - bin);
      }
      onward[i] = (onward[i] + total) * skip[i] + all * LEAST * scale;
    }
  }
}

/** What is left of a weight after so many bins. */
function left(listed: Float64Array, bins: number): number {
  return bins < LISTED ? listed[bins] : listed[1] ** bins;
}
