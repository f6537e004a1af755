import { KnotStates } from '../../src/snap/KnotStates';
import { seeded } from './randomLine';

/** A state of a knot: its bin and what it weighs. */
export interface OneState {
  readonly bin: number;
  readonly best: number;
  readonly sum: number;
  readonly fit: number;
}

/** States written out, `came` being the number of each. */
export function roomOf(states: readonly OneState[]): KnotStates {
  const room = new KnotStates();
  for (const [k, { bin, best, sum, fit }] of states.entries()) {
    room.add(bin);
    [room.best[k], room.sum[k], room.fit[k], room.came[k]] = [best, sum, fit, k];
  }
  return room;
}

/** So many lists of states with weights over many powers of ten, in clusters of bins a few apart. */
export function drawnStates(count: number, powers: number, rounds: number): OneState[][] {
  const random = seeded(count + powers);
  return Array.from({ length: rounds }, () => {
    let bin = Math.floor(random() * 5);
    return Array.from({ length: count }, () => {
      bin += random() < 0.1 ? 200 : 1 + Math.floor(3 * random());
      const weight = 10 ** (-powers * random());
      return { bin, best: 7 * weight, sum: weight * (0.2 + random()), fit: random() < 0.1 ? 1e-5 : random() };
    });
  });
}
