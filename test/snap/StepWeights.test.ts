import { describe, expect, test } from 'vitest';
import { KnotStates } from '../../src/snap/KnotStates';
import { LatticeStates } from '../../src/snap/LatticeStates';
import { StepWeights } from '../../src/snap/StepWeights';
import { seeded } from '../support/randomLine';
import { tinyLattice } from '../support/tinyLattice';

/** The fix of a knot, seconds and metres on from the one before, and whether the recording was interrupted between. */
interface Step {
  readonly seconds: number;
  readonly by: readonly [number, number, number];
  readonly gap?: boolean;
}

/** What of the lattice steps look at, `count` being its bins. */
function latticeOf(steps: readonly Step[], { spacing = 5, count = 1000, every = 1 } = {}): LatticeStates {
  const summed = (of: (step: Step) => number) => {
    let sum = 0;
    return Float64Array.from(steps, (step) => (sum += of(step)));
  };
  return {
    x: summed(({ by }) => by[0]),
    y: summed(({ by }) => by[1]),
    z: summed(({ by }) => by[2]),
    clock: summed(({ seconds }) => seconds),
    knots: Int32Array.from(steps.keys()),
    interrupted: Uint8Array.from(steps, ({ gap }) => (gap ? 1 : 0)),
    bins: { spacing, count },
    every,
  } as Partial<LatticeStates> as LatticeStates;
}

const elapsed = ({ seconds }: Step) => Math.max(seconds, 1);
const length = ({ by }: Step) => Math.hypot(...by);
const speed = (step: Step) => length(step) / elapsed(step);
const upper = (values: readonly number[]) => [...values].sort((a, b) => a - b)[values.length >> 1];

/**
 * The rule in words: a step of more than 7.5 s goes at the pace of the 15 on either side, itself not among them, that go on at
 * more than 0.5 m/s and take no longer than 90 s, if there are three; any other at the pace of all that go on.
 */
function paceOf(steps: readonly Step[], knot: number): number {
  const going = (one: number) => one > 0 && speed(steps[one]) > 0.5;
  const all = [...steps.keys()].filter(going);
  const around = all.filter((k) => k !== knot && Math.abs(k - knot) <= 15 && elapsed(steps[k]) <= 90);
  const asked = elapsed(steps[knot]) > 7.5 && around.length >= 3 ? around : all;
  return asked.length > 0 ? upper(asked.map((k) => speed(steps[k]))) : 0;
}

const durations = [0.25, 1, 5, 7.5, 8, 20, 30, 90, 90.5, 200];

/** Steps in which paces, pauses and what is exactly at a limit alternate; metres are eighths, so that sums are exact. */
function drawnSteps(random: () => number, count: number): Step[] {
  return Array.from({ length: count }, () => {
    const seconds = durations[Math.floor(random() * durations.length)];
    const pace = random() < 0.3 ? [0, 0.25, 0.5, 0.625][Math.floor(4 * random())] : 12 * random();
    const third = Math.round((8 * pace * Math.max(seconds, 1)) / 3) / 8;
    const by = [third, -2 * third, 2 * third] as const;
    const straight = [pace * Math.max(seconds, 1), 0, 0] as const;
    return { seconds, by: random() < 0.5 ? by : straight, gap: random() < 0.2 };
  });
}

describe('the pace of a step is that of those around it', () => {
  test.each([1, 2, 3, 4, 5, 12, 33, 70])('among %i fixes', (count) => {
    const random = seeded(700 + count);
    for (let round = 0; round < 12; round++) {
      const drawn = drawnSteps(random, count);
      const steps = new StepWeights(latticeOf(drawn));
      for (let knot = 1; knot < count; knot++) {
        const trace = `round ${round} knot ${knot}`;
        expect(Math.abs(steps.moved(knot) - length(drawn[knot])), trace).toBeLessThan(1e-3);
        const expected = paceOf(drawn, knot) * elapsed(drawn[knot]);
        expect(Math.abs(steps.expected(knot) - expected), trace).toBeLessThanOrEqual(1e-5 * expected);
      }
    }
  });

  test('at limits: 0.5 m/s is standing, 7.5 s too short, 90 s not too long, two too few, the sixteenth too far', () => {
    const step = (seconds: number, pace: number): Step => ({ seconds, by: [pace * seconds, 0, 0] });
    const paces = (list: readonly Step[], knot: number) => {
      const steps = new StepWeights(latticeOf([step(0, 0), ...list]));
      return steps.expected(knot) / list[knot - 1].seconds;
    };
    expect(paces([step(10, 0.5)], 1)).toBe(0);
    expect(paces([step(10, 0.5625)], 1)).toBe(0.5625);
    // three neighbours at 2 m/s, all others at 4: of the step itself nothing but its length is asked
    const far = Array.from({ length: 15 }, () => step(10, 0));
    const fast = Array.from({ length: 9 }, () => step(10, 4));
    const slow = [step(10, 2), step(90, 2), step(10, 2)];
    expect(paces([...slow, step(8, 6), ...far, ...fast], 4)).toBe(2);
    expect(paces([...slow, step(7.5, 6), ...far, ...fast], 4)).toBe(4);
    expect(paces([step(10, 2), step(90.5, 2), step(10, 2), step(8, 6), ...far, ...fast], 4)).toBe(4);
    expect(paces([step(10, 2), step(10, 2), step(8, 6), ...far, ...fast], 3)).toBe(4);
    expect(paces([...fast, ...far, step(8, 6), ...slow], 25)).toBe(2);
    expect(paces([...slow, ...far.slice(1), step(8, 6), ...fast], 18)).toBe(4);
  });
});

describe.each([
  ['5 m', { spacing: 5, count: 1000 }],
  ['0.37 m', { spacing: 0.37, count: 900 }],
  ['4.9 m, every third', { spacing: 4.9, count: 400, every: 3 }],
  ['4.9 m, a short route', { spacing: 4.9, count: 7 }],
])('with bins of %s', (_, lattice) => {
  const { spacing, count } = lattice;
  const random = seeded(count);
  const drawn = [
    ...drawnSteps(random, 40),
    // what leaps: more than 8 m/s and 10 m, and hopelessly far
    { seconds: 4, by: [0, 45, 0] as const },
    { seconds: 4, by: [0, 0, 900] as const },
    { seconds: 100, by: [0, 830, 0] as const, gap: true },
    { seconds: 100, by: [0, 830, 0] as const },
  ];
  const steps = new StepWeights(latticeOf(drawn, lattice));

  test('a step leads as far as a body gets, and as much further as fixes moved while nobody saw', () => {
    for (let knot = 1; knot < drawn.length; knot++) {
      steps.reach(knot);
      const expected = steps.expected(knot);
      const unseen = drawn[knot].gap ? 1.5 * steps.moved(knot) : 0;
      const ahead = Math.max(2.5 * expected, 8 * elapsed(drawn[knot])) + 10 + unseen;
      const back = Math.min(1.5 * expected + 10 + unseen, 300);
      expect([steps.lowest, steps.highest], `knot ${knot}`).toEqual([
        -Math.min(Math.ceil(back / spacing), count),
        Math.min(Math.ceil(ahead / spacing), count),
      ]);
    }
  });

  test('weights, spread and skips by their formulas', () => {
    for (let knot = 1; knot < drawn.length; knot++) {
      const trace = `knot ${knot}`;
      const sigma = 1 + (knot % 9);
      steps.moveTo(knot, sigma);
      const seconds = elapsed(drawn[knot]);
      const expected = steps.expected(knot);
      // e-fold less for half the step and 10 m too much or too little, of a step of 30 s or more
      const tolerance = (0.5 * expected + 10) * (30 / Math.min(seconds, 30));
      let furthest = 0;
      for (let bins = steps.lowest; bins <= steps.highest; bins++) {
        const metres = bins * spacing;
        const back = metres < 0 ? 0.1 * Math.abs(metres) : 0;
        const exponent = -Math.abs(metres - expected) / tolerance - back;
        furthest = Math.max(furthest, Math.abs(Math.log(steps.weights[bins - steps.lowest]) - exponent));
      }
      expect(furthest, trace).toBeLessThan(1e-6);
      const leap = Math.max(steps.moved(knot) - 8 * seconds - 10, 0);
      const unseen = drawn[knot].gap || leap > 0 ? Math.max(seconds, 60) : seconds;
      // what a receiver errs by, fresh as it is after 20 s; and half a state at either end
      const errs = 2 * sigma ** 2 * (1 - Math.exp(-unseen / 20));
      const variance =
        2.5 ** 2 * unseen + errs + ((lattice as { every?: number }).every ?? 1) ** 2 * (spacing ** 2 / 6);
      expect(1 / (4 * steps.spread * variance), trace).toBeCloseTo(1, 6);
      expect(steps.skip, trace).toBeCloseTo(drawn[knot].gap ? 1 : Math.exp(-Math.min(leap / 5, 9)), 9);
    }
  });

  /** States at a few bins each, some further apart than any step; past them one that a knot of more left behind. */
  function drawnStates(size: number, from: number): KnotStates {
    const states = new KnotStates();
    let bin = from;
    for (let k = 0; k <= size; k++) {
      states.add(bin);
      bin += random() < 0.1 ? Math.floor(random() * 60) : 1 + Math.floor(random() * 3);
      [states.x[k], states.y[k], states.z[k]] = [30 * random(), -30 * random(), 60 * (random() - 0.5)];
      [states.best[k], states.sum[k], states.skip[k]] = [random(), random(), 0.01 * random()];
      states.came[k] = -2 - k;
    }
    states.size = size;
    return states;
  }

  /** What a step weighs: the number of bins, and Student's t of how far the route moved otherwise than the fixes. */
  function weight(before: KnotStates, i: number, here: KnotStates, j: number): number {
    const step = here.bin[j] - before.bin[i];
    if (step < steps.lowest || step > steps.highest) return 0;
    const apart = Math.hypot(here.x[j] - before.x[i], here.y[j] - before.y[i], here.z[j] - before.z[i]);
    return steps.weights[step - steps.lowest] * ((1 + apart ** 2 * steps.spread) ** -3 + Math.exp(-9));
  }

  const range = (size: number) => Array.from({ length: size }, (_, k) => k);

  test('forward and backward weigh every pair of states that a step joins', () => {
    let joined = 0;
    let outside = 0;
    for (let knot = 1; knot < drawn.length; knot++) {
      steps.weights = new Float64Array(4000).fill(1e6);
      steps.moveTo(knot, 5);
      const reach = steps.highest - steps.lowest;
      const before = drawnStates(1 + Math.floor(random() * 25), reach + Math.floor(random() * 40));
      const here = drawnStates(1 + Math.floor(random() * 25), Math.floor(random() * (2 * reach + 40)));
      const trace = `knot ${knot}`;
      const all = range(here.size).map((j) => range(before.size).map((i) => weight(before, i, here, j)));
      joined += all.flat().filter((one) => one > 0).length;
      outside += all.flat().filter((one) => one === 0).length;
      const was = { best: here.best.slice(), sum: here.sum.slice(), given: before.best.slice() };
      steps.backward(here, before);
      for (const i of range(before.size)) {
        const back = range(here.size).reduce((sum, j) => sum + all[j][i] * was.best[j], was.given[i]);
        expect(before.best[i] / back, trace).toBeCloseTo(1, 9);
      }
      before.best.set(was.given);
      steps.forward(before, here);
      for (const j of range(here.size)) {
        const values = range(before.size).map((i) => all[j][i] * was.given[i]);
        const jumped = was.best[j] * here.skip[j];
        const most = Math.max(jumped, ...values);
        expect(here.best[j] / most, trace).toBeCloseTo(1, 9);
        const total = values.reduce((sum, _, i) => sum + all[j][i] * before.sum[i], was.sum[j] * here.skip[j]);
        expect(here.sum[j] / total, trace).toBeCloseTo(1, 9);
        expect(here.came[j], trace).toBe(most === jumped ? -2 - j : values.indexOf(most));
      }
    }
    expect(Math.min(joined, outside)).toBeGreaterThan(500);
  });
});

test('where a step weighs no more than what a jump did, the jump stands', () => {
  const steps = new StepWeights(
    latticeOf([
      { seconds: 0, by: [0, 0, 0] },
      { seconds: 10, by: [10, 0, 0] },
    ]),
  );
  steps.moveTo(1, 5);
  const one = (bin: number, best: number) => {
    const states = new KnotStates();
    states.add(bin);
    [states.best[0], states.skip[0], states.came[0]] = [best, 1, -1];
    return states;
  };
  const reached = one(12, 0);
  steps.forward(one(10, 1), reached);
  expect(reached.came[0]).toBe(0);
  const jumped = one(12, reached.best[0]);
  steps.forward(one(10, 1), jumped);
  expect([jumped.best[0], jumped.came[0]]).toEqual([reached.best[0], -1]);
});

test('of a recording that goes on, a step is measured as it is taken, its pace told', () => {
  const { bins, track } = tinyLattice(
    [
      [0, 0],
      [300, 0],
    ],
    [
      { at: [10, 0], seconds: 0 },
      { at: [40, 40], seconds: 20 },
    ],
  );
  const whole = new LatticeStates(bins, track, Int32Array.of(0, 1), 60, 5);
  const going = LatticeStates.ofNext(bins, 60, 5);
  const steps = new StepWeights(going);
  for (const knot of [0, 1]) {
    const { x, y, z, clock } = whole;
    going.take(knot, { x: x[knot], y: y[knot], z: z[knot], clock: clock[knot], interrupted: 0, admitted: 0 });
  }
  steps.take(1, 1.5);
  expect(steps.moved(1)).toBeCloseTo(50, 3);
  expect(steps.expected(1)).toBeCloseTo(30, 6);
});
