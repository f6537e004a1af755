import type { KnotStates } from './KnotStates';

/** Weight of going on at another part of the route, ahead or back: bodies don't, but for good. */
const AHEAD = Math.exp(-22);
const BACK = Math.exp(-30);

/** Cost of a metre left out by a jump ahead, or gone over again by a jump back. */
const LEFT_OUT = 0.005;
const REPEATED = 0.005;

/** However far it leads, and however badly it fits what it leaves, a jump weighs no less where the body seems to be lost. */
const LEAST = Math.exp(-40);

/**
 * What jumps along the route carry from the states of one knot to those of another, at a price that grows with their
 * length: in one sweep over the states for those from below and one for those from above. What it is worth to jump from
 * a state is counted here, what it is worth to jump to one is not.
 */
export class Jumps {
  /** What is left of a weight after a bin ahead, and after one back. */
  readonly #ahead: number;
  readonly #back: number;

  constructor(spacing: number) {
    this.#ahead = Math.exp(-LEFT_OUT * spacing);
    this.#back = Math.exp(-REPEATED * spacing);
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
      top *= power(this.#ahead, bin - at);
      at = bin;
      for (; i < before.size && before.bin[i] < at; i++) {
        const value = before.best[i] * before.skip[i] * scale * AHEAD * power(this.#ahead, at - before.bin[i]);
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
      top *= power(this.#back, at - bin);
      at = bin;
      for (; i >= 0 && before.bin[i] >= at; i--) {
        const value = before.best[i] * before.skip[i] * scale * BACK * power(this.#back, before.bin[i] - at);
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
    upwards: number,
    down: number,
    downwards: number,
  ): void {
    let i = 0;
    let total = 0;
    let at = 0;
    for (let j = 0; j < to.size; j++) {
      const bin = to.bin[j];
      total *= power(upwards, bin - at);
      at = bin;
      for (; i < from.size && from.bin[i] < at; i++)
        total += values[i] * from.skip[i] * up * power(upwards, at - from.bin[i]);
      into[j] = total;
    }
    i = from.size - 1;
    total = 0;
    for (let j = to.size - 1; j >= 0; j--) {
      const bin = to.bin[j];
      total *= power(downwards, at - bin);
      at = bin;
      for (; i >= 0 && from.bin[i] >= at; i--)
        total += values[i] * from.skip[i] * down * power(downwards, from.bin[i] - at);
      into[j] += total;
    }
  }
}

/** Neighbours are the rule, and a multiplication less than a power. */
function power(base: number, exponent: number): number {
  return exponent === 1 ? base : exponent === 0 ? 1 : base ** exponent;
}
