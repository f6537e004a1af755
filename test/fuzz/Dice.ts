import { seeded } from '../support/randomLine';

/** Choices of one case: the same for the same seed and number, whatever cases ran before. */
export class Dice {
  /** A number in [0, 1). */
  readonly roll: () => number;

  constructor(seed: number, index: number) {
    // neighbouring cases begin far apart in the generator's round
    this.roll = seeded(Math.imul(seed + 0x9e3779b9, 0x85ebca6b) ^ Math.imul(index + 1, 0xc2b2ae35));
  }

  chance(share: number): boolean {
    return this.roll() < share;
  }

  /** A whole number from `least` to `most`. */
  integer(least: number, most: number): number {
    return least + Math.floor(this.roll() * (most - least + 1));
  }

  between(least: number, most: number): number {
    return least + this.roll() * (most - least);
  }

  pick<T>(list: readonly T[]): T {
    return list[Math.floor(this.roll() * list.length)];
  }

  list<T>(least: number, most: number, make: (index: number) => T): T[] {
    return Array.from({ length: this.integer(least, most) }, (_, i) => make(i));
  }
}
