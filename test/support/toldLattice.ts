import { expect } from 'vitest';
import type { KnotStates } from '../../src/snap/KnotStates';
import type { LatticeStates, Pin } from '../../src/snap/LatticeStates';
import type { StepWeights } from '../../src/snap/StepWeights';

/** What a state is told to be: where, how well it fits, what its fix makes of it, and what steps carry to it. */
interface Told {
  readonly bin: number;
  /** 1 where no step leads to it. */
  readonly unreached?: 0 | 1;
  readonly fit?: number;
  readonly emission?: number;
  /** What steps carry to it: of the heaviest path, from which state, and of all. */
  readonly led?: { readonly best: number; readonly sum: number; readonly from: number };
}

export interface ToldKnot {
  readonly states: readonly Told[];
  readonly outside: number;
  /** What a skip into this knot is worth, and whether the states of it are lost. */
  readonly skip?: number;
  readonly lost?: boolean;
}

export const SPACING = 5;
export const COUNT = 400;
export const leftOut = Float64Array.from({ length: COUNT }, (_, bins) => Math.exp(-0.005 * SPACING * bins));
export const sigma = Float64Array.from({ length: COUNT }, (_, bin) => 3 + bin / 100);

/** A lattice that says what it is told, and what it was asked. */
export function toldLattice(knots: readonly ToldKnot[]) {
  const asked = { reach: [] as number[], moveTo: [] as [number, number][], forward: [] as number[] };
  const pins: readonly Pin[] = [];
  const write = (told: ToldKnot, room: KnotStates) => {
    room.size = 0;
    for (const { bin, unreached = 0 } of told.states) room.add(bin, unreached);
  };
  const of = (knot: number, bin: number) => knots[knot].states.find((state) => state.bin === bin) as Told;
  const each = (room: KnotStates, take: (j: number) => void) => {
    for (let j = 0; j < room.size; j++) take(j);
  };
  const states = {
    knots: Int32Array.from(knots.keys()),
    bins: { spacing: SPACING, count: COUNT, leftOut },
    write: (knot: number, _: KnotStates, lowest: number, highest: number, room: KnotStates) => {
      expect([lowest, highest]).toEqual(knot === 0 ? [0, 0] : [-knot, knot]);
      write(knots[knot], room);
    },
    fit: (knot: number, given: Float64Array, room: KnotStates) => {
      expect(given).toBe(sigma);
      each(room, (j) => {
        room.fit[j] = of(knot, room.bin[j]).fit ?? 1;
        room.skip[j] = room.fit[j];
      });
    },
    weigh: (knot: number, given: readonly Pin[], room: KnotStates) => {
      expect(given).toBe(pins);
      room.lost = knots[knot].lost ?? false;
      each(room, (j) => {
        room.emission[j] = of(knot, room.bin[j]).emission ?? 1;
      });
    },
    outside: (knot: number) => knots[knot].outside,
  };
  const steps = {
    lowest: 0,
    highest: 0,
    skip: 0,
    reach(knot: number) {
      asked.reach.push(knot);
      [this.lowest, this.highest] = [-knot, knot];
    },
    moveTo(knot: number, deviation: number) {
      asked.moveTo.push([knot, deviation]);
      this.skip = knots[knot].skip ?? 0;
    },
    forward(_: KnotStates, room: KnotStates) {
      const knot = asked.reach.at(-1) as number;
      asked.forward.push(knot);
      each(room, (j) => {
        const { led } = of(knot, room.bin[j]);
        if (led && led.best > room.best[j]) {
          room.best[j] = led.best;
          room.came[j] = led.from;
        }
        room.sum[j] += led?.sum ?? 0;
      });
    },
  };
  return { states: states as unknown as LatticeStates, steps: steps as unknown as StepWeights, pins, asked };
}
