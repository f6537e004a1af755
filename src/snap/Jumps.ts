import type { KnotStates } from './KnotStates';

/** Weight of going on at another part of the route, ahead or back: bodies don't, but for good. */
const AHEAD = Math.exp(-22);
const BACK = Math.exp(-30);

/** Cost of a metre left out by a jump ahead, or gone over again by a jump back. */
const LEFT_OUT = 0.005;
const REPEATED = 0.005;

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
  /** What is left of a weight after so many bins ahead, and back. */
  readonly #ahead: Float64Array;
  readonly #back: Float64Array;

  constructor(spacing: number) {
    this.#ahead = Float64Array.from({ length: LISTED }, (_, bins) => Math.exp(-LEFT_OUT * spacing * bins));
    this.#back = Float64Array.from({ length: LISTED }, (_, bins) => Math.exp(-REPEATED * spacing * bins));
  }

  /** Writes the sum of what the states of the knot before carry to each state here, but for what it is worth to jump to it. */
  forward(before: KnotStates, here: KnotStates, scale: number): void {
    const { sum: values, size } = before;
    this.#sum(before, values, here, here.sum, AHEAD * scale, this.#ahead, BACK * scale, this.#back);
    if (!before.lost) return;
    let all = 0;
    for (let i = 0; i < size; i++) all += values[i];
    for (let j = 0; j < here.size; j++) here.sum[j] += all * LEAST * scale;
  }

  /** The other way in time: writes the sum of what the states of the next knot give back to each state here. */
  backward(next: KnotStates, here: KnotStates, scale: number): void {
    const { best: values, size } = next;
    const into = here.best;
    this.#sum(next, values, here, into, BACK * scale, this.#back, AHEAD * scale, this.#ahead);
    let all = 0;
    if (here.lost) for (let j = 0; j < size; j++) all += values[j] * next.skip[j];
    for (let i = 0; i < here.size; i++) into[i] = into[i] * here.skip[i] + all * LEAST * scale;
  }

  /** Writes the most that one state of the knot before carries to each state here, and which one. */
  best(before: KnotStates, here: KnotStates, scale: number): void {
    const { best: into, came } = here;
    let heaviest = 0;
    let widely = 0;
    for (let i = 0; i < before.size; i++) {
      const value = before.lost ? before.best[i] * scale * LEAST : 0;
      if (value > widely) {
        widely = value;
        heaviest = i;
      }
    }
    let i = 0;
    let top = 0;
    let at = 0;
    let source = 0;
    for (let j = 0; j < here.size; j++) {
      const bin = here.bin[j];
      top *= left(this.#ahead, bin - at);
      at = bin;
      for (; i < before.size && before.bin[i] < at; i++) {
        const value = before.best[i] * before.skip[i] * scale * AHEAD * left(this.#ahead, at - before.bin[i]);
        if (value > top) {
          top = value;
          source = i;
        }
      }
      into[j] = Math.max(top, widely);
      came[j] = top > widely ? source : heaviest;
    }
    i = before.size - 1;
    top = 0;
    for (let j = here.size - 1; j >= 0; j--) {
      const bin = here.bin[j];
      top *= left(this.#back, at - bin);
      at = bin;
      for (; i >= 0 && before.bin[i] >= at; i--) {
        const value = before.best[i] * before.skip[i] * scale * BACK * left(this.#back, before.bin[i] - at);
        if (value > top) {
          top = value;
          source = i;
        }
      }
      if (top > into[j]) {
        into[j] = top;
        came[j] = source;
      }
    }
  }

  #sum(
    from: KnotStates,
    values: Float64Array,
    to: KnotStates,
    into: Float64Array,
    up: number,
    upwards: Float64Array,
    down: number,
    downwards: Float64Array,
  ): void {
    let i = 0;
    let total = 0;
    let at = 0;
    for (let j = 0; j < to.size; j++) {
      const bin = to.bin[j];
      total *= left(upwards, bin - at);
      at = bin;
      for (; i < from.size && from.bin[i] < at; i++)
        total += values[i] * from.skip[i] * up * left(upwards, at - from.bin[i]);
      into[j] = total;
    }
    i = from.size - 1;
    total = 0;
    for (let j = to.size - 1; j >= 0; j--) {
      const bin = to.bin[j];
      total *= left(downwards, at - bin);
      at = bin;
      for (; i >= 0 && from.bin[i] >= at; i--)
        total += values[i] * from.skip[i] * down * left(downwards, from.bin[i] - at);
      into[j] += total;
    }
  }
}

/** What is left of a weight after so many bins. */
function left(listed: Float64Array, bins: number): number {
  return bins < LISTED ? listed[bins] : listed[1] ** bins;
}
