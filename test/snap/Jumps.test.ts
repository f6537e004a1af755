import { describe, expect, test } from 'vitest';
import { Jumps } from '../../src/snap/Jumps';
import { KnotStates } from '../../src/snap/KnotStates';
import { seeded } from '../support/randomLine';

const SPACING = 4.9;

/** States at bins that ascend, some close together and some far on, with weights over many powers of ten. */
function statesOf(random: () => number, count: number, lost: boolean): KnotStates {
  const states = new KnotStates();
  let bin = Math.floor(random() * 300);
  for (let k = 0; k < count; k++) {
    states.add(bin);
    bin += random() < 0.2 ? Math.floor(random() * 600) + 1 : 1;
    states.best[k] = 10 ** (-12 * random());
    states.sum[k] = states.best[k] * (1 + random());
    states.skip[k] = random();
  }
  states.lost = lost;
  return states;
}

/** A jump in words: e^−22 ahead, e^−30 back, both less e^−0.005 a metre; where the body is lost no less than e^−40, wherever it leads. */
const carries = (from: number, to: number) => Math.exp((from < to ? -22 : -30) - 0.005 * SPACING * Math.abs(to - from));
const least = ({ lost }: KnotStates) => (lost ? Math.exp(-40) : 0);

const close = (value: number, expected: number, trace: string) =>
  expect(Math.abs(value - expected), trace).toBeLessThanOrEqual(1e-12 * expected);

const columns = (states: KnotStates) =>
  Array.from({ length: states.size }, (_, k) => ({
    bin: states.bin[k],
    best: states.best[k],
    sum: states.sum[k],
    skip: states.skip[k],
  }));

describe.each([false, true])('from states that are lost: %s', (lost) => {
  test.each([
    [1, 1],
    [3, 40],
    [40, 3],
    [60, 60],
  ])('%i to %i: every jump is tried', (before, after) => {
    const random = seeded(before + 100 * after);
    const jumps = new Jumps(SPACING);
    for (let round = 0; round < 20; round++) {
      const from = statesOf(random, before, lost);
      const to = statesOf(random, after, false);
      const scale = random();
      jumps.forward(from, to, scale);
      const all = columns(from);
      for (let j = 0; j < to.size; j++) {
        const trace = `round ${round}, state ${j}`;
        const each = all.map(({ bin, best, skip }) => scale * best * skip * carries(bin, to.bin[j]));
        const widely = Math.max(...all.map(({ best }) => scale * best * least(from)));
        close(to.best[j], Math.max(...each, widely), trace);
        const came = to.came[j];
        close(to.best[j], Math.max(each[came], scale * all[came].best * least(from)), trace);
        close(
          to.sum[j],
          all.reduce((sum, one) => sum + scale * one.sum * (one.skip * carries(one.bin, to.bin[j]) + least(from)), 0),
          trace,
        );
      }
    }
  });

  test('the other way in time, each state is given back what it carries to those of the next knot', () => {
    const random = seeded(7);
    const jumps = new Jumps(SPACING);
    for (let round = 0; round < 20; round++) {
      const here = statesOf(random, 30, lost);
      const next = statesOf(random, 50, false);
      const scale = random();
      jumps.backward(next, here, scale);
      const all = columns(next);
      for (let i = 0; i < here.size; i++) {
        const given = all.reduce((sum, { bin, best, skip }) => {
          return sum + scale * best * skip * (here.skip[i] * carries(here.bin[i], bin) + least(here));
        }, 0);
        close(here.best[i], given, `round ${round}, state ${i}`);
      }
    }
  });
});
