import { describe, expect, test } from 'vitest';
import { LatticeStates, type Pin } from '../../src/snap/LatticeStates';
import { likeliestPath } from '../../src/snap/likeliestPath';
import { pathShares } from '../../src/snap/pathShares';
import { StepWeights } from '../../src/snap/StepWeights';
import type { PlanePoint } from '../support/planeRoute';
import { seeded } from '../support/randomLine';
import { type TinyFix, tinyLattice } from '../support/tinyLattice';

/** e to the power of less so much is the price of a metre left out or gone over again, and of a jump. */
const LEFT_OUT = 0.005;
const REPEATED = 0.02;
const JUMP = 10;

interface Lattice {
  readonly states: LatticeStates;
  readonly sigma: Float64Array;
  readonly pins: readonly Pin[];
}

/** The states of each knot, and what the step from one to another weighs: by its motion, and by a jump. */
function written({ states, sigma, pins }: Lattice) {
  const { bins } = states;
  const steps = new StepWeights(states);
  const room = states.room();
  const knots = [...states.knots.keys()].map((knot) => {
    states.write(knot, sigma, pins, room);
    return { bin: [...room.bin.subarray(0, room.size)], emission: [...room.emission.subarray(0, room.size)] };
  });
  const motion = (knot: number, from: number, to: number) => {
    steps.moveTo(knot, sigma[knots[knot].bin[0]]);
    const step = to - from;
    if (step < steps.lowest || step > steps.highest) return 0;
    // how the route moved less how the fixes did
    const square = (['x', 'y', 'z'] as const).reduce(
      (sum, axis) => sum + (bins[axis][to] - bins[axis][from] - (states[axis][knot] - states[axis][knot - 1])) ** 2,
      0,
    );
    return steps.weights[step - steps.lowest] * (1 + steps.spread * square) ** -3;
  };
  const jump = (from: number, to: number) =>
    Math.exp(-JUMP - (to > from ? LEFT_OUT * (to - from) : REPEATED * (from - to)) * bins.spacing);
  const leftOut = (count: number) => Math.exp(-LEFT_OUT * count * bins.spacing);
  return { knots, motion, jump, leftOut };
}

/** Every path through the lattice, one by one. */
function enumerate(lattice: Lattice) {
  const { knots, motion, jump, leftOut } = written(lattice);
  const last = lattice.states.bins.count - 1;
  const reached = knots.map(({ bin }) => bin.map(() => 0));
  let best = { weight: 0, path: [] as number[] };
  let second = 0;
  let paths = 0;
  const visit = (path: readonly number[], most: number, sum: number) => {
    const knot = path.length;
    if (knot > 0) reached[knot - 1][path[knot - 1]] += sum;
    if (knot === knots.length) {
      paths++;
      const weight = most * leftOut(last - knots[knot - 1].bin[path[knot - 1]]);
      if (weight > best.weight) {
        second = best.weight;
        best = { weight, path: path.map((state, k) => knots[k].bin[state]) };
      } else second = Math.max(second, weight);
      return;
    }
    for (const [state, bin] of knots[knot].bin.entries()) {
      const from = knot > 0 ? knots[knot - 1].bin[path[knot - 1]] : bin;
      const byMotion = knot > 0 ? motion(knot, from, bin) : leftOut(bin);
      const byJump = knot > 0 ? jump(from, bin) : 0;
      const emission = knots[knot].emission[state];
      visit([...path, state], most * Math.max(byMotion, byJump) * emission, sum * (byMotion + byJump) * emission);
    }
  };
  visit([], 1, 1);
  return { best, second, reached, paths };
}

function judge(lattice: Lattice, trace: string) {
  const { states, sigma, pins } = lattice;
  const { best, second, reached, paths } = enumerate(lattice);
  const found = likeliestPath(states, new StepWeights(states), sigma, pins);
  if (best.weight > second * (1 + 1e-9)) expect([...found.bin], trace).toEqual(best.path);
  for (const [knot, weights] of reached.entries()) {
    const top = Math.max(...weights);
    for (const [state, weight] of weights.entries()) {
      expect(found.forward[states.first[knot] + state], `${trace} knot ${knot} state ${state}`).toBeCloseTo(
        weight / top,
        6,
      );
    }
  }
  expect(found.forward.length).toBe(states.first[states.knots.length]);
  return { best, paths };
}

/** Lines that pass the same places twice, out and back, across, and apart by less than the errors of the fixes. */
const routes: Record<string, PlanePoint[]> = {
  straight: [
    [0, 0],
    [120, 0],
  ],
  'out and back': [
    [0, 0],
    [60, 0],
    [0, 0],
  ],
  'out and back 8 m beside': [
    [0, 0],
    [60, 0],
    [60, 8],
    [0, 8],
  ],
  'a loop that crosses itself': [
    [0, 0],
    [40, 0],
    [40, 25],
    [20, 25],
    [20, -30],
  ],
  'a loop run twice': [
    [0, 0],
    [20, 0],
    [20, 15],
    [0, 0],
    [20, 0],
    [20, 15],
    [0, 0],
  ],
};

describe.each(Object.entries(routes))('of every path along a tiny route, %s', (name, points) => {
  function lattice(random: () => number): Lattice {
    const between = (share: number): PlanePoint => {
      const at = share * (points.length - 1);
      const k = Math.min(Math.floor(at), points.length - 2);
      return [0, 1].map((axis) => points[k][axis] + (at - k) * (points[k + 1][axis] - points[k][axis])) as never;
    };
    const count = 2 + Math.floor(random() * 3);
    let seconds = 0;
    let share = random() * 0.3;
    const fixes = Array.from({ length: count }, (): TinyFix => {
      seconds += random() < 0.2 ? 0.5 : 1 + 25 * random();
      share = random() < 0.15 ? random() : Math.min(1, share + 0.35 * random());
      const [x, y] = between(share);
      return { at: [x + 10 * (random() - 0.5), y + 10 * (random() - 0.5)], seconds, gap: random() < 0.2 };
    });
    const { bins, track } = tinyLattice(points, fixes);
    const sigma = Float64Array.from(bins.x, () => 2 + 6 * random());
    const states = new LatticeStates(bins, track, Int32Array.from(fixes.keys()), 9, 8);
    const pins = random() < 0.3 ? [{ fix: count - 1, alongTrack: random() * bins.count * bins.spacing, sd: 10 }] : [];
    return { states, sigma, pins };
  }

  test('finds the likeliest, and weighs all that lead to a state', () => {
    const random = seeded(name.length);
    let paths = 0;
    for (let round = 0; round < 14; round++) paths += judge(lattice(random), `${name} ${round}`).paths;
    expect(paths).toBeGreaterThan(300);
  });
});

test('one fix alone lies where it fits best, the rest of the route being left out at either end', () => {
  const { bins, track } = tinyLattice(routes['out and back 8 m beside'], [{ at: [30, 4], seconds: 0 }]);
  const states = new LatticeStates(bins, track, Int32Array.of(0), 12, 5);
  const { paths } = judge({ states, sigma: new Float64Array(bins.count).fill(5), pins: [] }, 'one');
  expect(paths).toBeGreaterThan(5);
});

test('where no motion leads, a jump does, ahead or back', () => {
  for (const places of [
    [10, 700],
    [700, 10],
  ]) {
    const fixes = places.map((x, k): TinyFix => ({ at: [x, 0], seconds: k }));
    const { bins, track } = tinyLattice(
      [
        [0, 0],
        [720, 0],
      ],
      fixes,
    );
    const states = new LatticeStates(bins, track, Int32Array.of(0, 1), 10, 5);
    const { best } = judge({ states, sigma: new Float64Array(bins.count).fill(5), pins: [] }, `${places}`);
    expect(Math.abs(best.path[1] - best.path[0])).toBeGreaterThan(100);
  }
});

test('weights never run out, along however many fixes', () => {
  const fixes = Array.from({ length: 900 }, (_, k): TinyFix => ({ at: [4 * k, 12 * (k % 2)], seconds: 5 * k }));
  const { bins, track } = tinyLattice(
    [
      [0, 0],
      [3600, 0],
    ],
    fixes,
  );
  const states = new LatticeStates(bins, track, Int32Array.from(fixes.keys()), 30, 2);
  const { bin, forward } = likeliestPath(states, new StepWeights(states), new Float64Array(bins.count).fill(2), []);
  for (const [knot, place] of bin.entries()) expect(Math.abs(place * bins.spacing - 4 * knot)).toBeLessThan(10);
  for (const knot of states.knots.keys()) {
    expect(Math.max(...forward.subarray(states.first[knot], states.first[knot + 1]))).toBe(1);
  }
});

test('no fix, no path', () => {
  const { bins, track } = tinyLattice(routes.straight, [{ at: [0, 900], seconds: 0 }]);
  const states = new LatticeStates(bins, track, Int32Array.of(0), 9, 5);
  const { bin, forward } = likeliestPath(states, new StepWeights(states), new Float64Array(bins.count).fill(5), []);
  expect([bin.length, forward.length]).toEqual([0, 0]);
});

test('far along a route, farther from its end than weights reach down, a recording is as well placed', () => {
  const fixes = Array.from({ length: 6 }, (_, k): TinyFix => ({ at: [170_000 + 15 * k, 0], seconds: 5 * k }));
  const { bins, track } = tinyLattice(
    [
      [0, 0],
      [340_000, 0],
    ],
    fixes,
    { maxSpacing: 400 },
  );
  const states = new LatticeStates(bins, track, Int32Array.from(fixes.keys()), 60, 5);
  const sigma = new Float64Array(bins.count).fill(5);
  const path = likeliestPath(states, new StepWeights(states), sigma, []);
  for (const [knot, place] of path.bin.entries()) {
    expect(Math.abs(place * bins.spacing - fixes[knot].at[0])).toBeLessThan(6);
  }
  const { confidence } = pathShares(states, new StepWeights(states), sigma, [], path);
  expect(confidence.every((share) => share > 0.99)).toBe(true);
});
