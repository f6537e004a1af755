import { describe, expect, test } from 'vitest';
import type { KeptStates } from '../../src/snap/KeptStates';
import { KnotStates } from '../../src/snap/KnotStates';
import { LatticeStates, type Pin } from '../../src/snap/LatticeStates';
import { type LikeliestPath, likeliestPath } from '../../src/snap/likeliestPath';
import { pathShares } from '../../src/snap/pathShares';
import { StepWeights } from '../../src/snap/StepWeights';
import type { PlanePoint } from '../support/planeRoute';
import { seeded } from '../support/randomLine';
import { type TinyFix, tinyLattice } from '../support/tinyLattice';
import { sigma, type ToldKnot, toldLattice } from '../support/toldLattice';

/** e to the power of less so much is the price of a metre left out or gone over again, and of a jump. */
const LEFT_OUT = 0.005;
const REPEATED = 0.005;
const AHEAD = 22;
const BACK = 30;
const LOST = 40;

/** And of joining the route late or leaving it early; however a step moves against its fixes, it costs hardly more than 9. */
const JOINS = 3;
const WILD = 9;

interface Lattice {
  readonly states: LatticeStates;
  readonly sigma: Float64Array;
  readonly pins: readonly Pin[];
}

interface State {
  readonly bin: number;
  readonly emission: number;
  readonly fit: number;
}

/** What a path is made of, by the formulas: the states of each knot and the weight of each step. */
function written({ states, sigma, pins }: Lattice, kept: KeptStates) {
  const { bins } = states;
  const steps = new StepWeights(states);
  const listed = (room: KnotStates): State[] =>
    Array.from({ length: room.size }, (_, k) => ({ bin: room.bin[k], emission: room.emission[k], fit: room.fit[k] }));
  const leap = (from: State, to: State, lost: boolean) => {
    const metres = (to.bin - from.bin) * bins.spacing;
    const price = metres > 0 ? AHEAD + LEFT_OUT * metres : BACK - REPEATED * metres;
    const anywhere = lost ? Math.exp(-LOST) : 0;
    const fitting = from.fit * Math.exp(-price);
    return { most: to.fit * Math.max(fitting, anywhere), all: to.fit * (fitting + anywhere) };
  };
  const before = new KnotStates();
  const knots = [...states.knots.keys()].map((knot) => {
    const room = new KnotStates();
    if (knot > 0) steps.reach(knot);
    states.write(knot, before, steps.lowest, steps.highest, room);
    states.fit(knot, sigma, room);
    states.weigh(knot, pins, room);
    // where no step leads, and a jump at too high a price, there is no state
    const all = listed(room).filter((to, k) => {
      if (before.size === 0 || room.marked[k] === 0) return true;
      steps.moveTo(knot, sigma[before.bin[0]]);
      const carried = listed(before).map((from, i) => before.sum[i] * leap(from, to, before.lost).all * steps.skip);
      return carried.reduce((a, b) => a + b, 0) >= 1e-18 * to.fit;
    });
    kept.read(knot, before);
    states.fit(knot, sigma, before);
    states.weigh(knot, pins, before);
    const bin = [...before.bin.subarray(0, before.size)];
    const sum = [...before.sum.subarray(0, before.size)];
    return { all, kept: all.filter((state) => bin.includes(state.bin)), sum, lost: before.lost };
  });
  const motion = (knot: number, from: State, to: State) => {
    steps.moveTo(knot, sigma[knots[knot - 1].kept[0].bin]);
    const step = to.bin - from.bin;
    if (step < steps.lowest || step > steps.highest) return 0;
    // how the route moved less how the fixes did
    const square = (['x', 'y', 'z'] as const).reduce(
      (sum, axis) =>
        sum + (bins[axis][to.bin] - bins[axis][from.bin] - (states[axis][knot] - states[axis][knot - 1])) ** 2,
      0,
    );
    return steps.weights[step - steps.lowest] * ((1 + steps.spread * square) ** -3 + Math.exp(-WILD));
  };
  const jump = (knot: number, from: State, to: State) => {
    steps.moveTo(knot, sigma[knots[knot - 1].kept[0].bin]);
    const { most, all } = leap(from, to, knots[knot - 1].lost);
    return { most: most * steps.skip, all: all * steps.skip };
  };
  const leftOut = (count: number) => Math.exp(-LEFT_OUT * count * bins.spacing);
  return { knots, motion, jump, leftOut };
}

/** Every path through the states kept, one by one: those that begin late and end early among them. */
function enumerate(lattice: Lattice, found: LikeliestPath) {
  const { states } = lattice;
  const { knots, motion, jump, leftOut } = written(lattice, found.kept);
  const last = states.bins.count - 1;
  const outside = knots.map(({ all }, knot) => {
    const room = new KnotStates();
    for (const { bin } of all) room.add(bin);
    states.fit(knot, lattice.sigma, room);
    states.weigh(knot, lattice.pins, room);
    return states.outside(knot, room);
  });
  const product = (from: number, to: number) => outside.slice(from, to).reduce((a, b) => a * b, 1);
  /** What a state weighs that is reached from those kept of the knot before: the heaviest way, and all. */
  const reached = knots.map(({ all }) => all.map(() => ({ most: 0, sum: 0 })));
  let best = { weight: 0, path: [] as number[] };
  let second = 0;
  let paths = 0;
  const visit = (begin: number, path: readonly State[], most: number, sum: number) => {
    const knot = begin + path.length - 1;
    const here = path[path.length - 1];
    const at = knots[knot].all.indexOf(here);
    reached[knot][at].most = Math.max(reached[knot][at].most, most);
    reached[knot][at].sum += sum;
    if (!knots[knot].kept.includes(here)) return;
    paths++;
    const leaves = knot < knots.length - 1 ? Math.exp(-JOINS) * product(knot + 1, knots.length) : 1;
    const weight = most * leaves * leftOut(last - here.bin);
    if (weight > best.weight) {
      second = best.weight;
      const bins = path.map(({ bin }) => bin);
      const whole = [...new Array(begin).fill(bins[0]), ...bins, ...new Array(knots.length - 1 - knot).fill(here.bin)];
      best = { weight, path: whole };
    } else second = Math.max(second, weight);
    if (knot === knots.length - 1) return;
    for (const next of knots[knot + 1].all) {
      const byMotion = motion(knot + 1, here, next);
      const byJump = jump(knot + 1, here, next);
      visit(
        begin,
        [...path, next],
        most * Math.max(byMotion, byJump.most) * next.emission,
        sum * (byMotion + byJump.all) * next.emission,
      );
    }
  };
  for (const [begin, { all }] of knots.entries()) {
    const joins = begin > 0 ? Math.exp(-JOINS) * product(0, begin) : 1;
    for (const state of all) {
      const weight = joins * leftOut(state.bin) * state.emission;
      visit(begin, [state], weight, weight);
    }
  }
  return { best, second, paths, reached, knots };
}

/**
 * The rule in words: what weighs nothing before its fix is weighed, as much as it fits, goes no further; nor does what weighs a
 * hundredth of another within 60 m.
 */
function worthGoingOn(reached: readonly { most: number; sum: number }[], states: readonly State[], spacing: number) {
  const shares = (list: readonly { most: number; sum: number }[]) => {
    const most = Math.max(...list.map((one) => one.most));
    const sum = Math.max(...list.map((one) => one.sum));
    return list.map((one) => Math.max(one.most / most, one.sum / sum));
  };
  const before = shares(
    reached.map(({ most, sum }, k) => ({ most: most / states[k].emission, sum: sum / states[k].emission })),
  ).map((share, k) => share * states[k].fit);
  const worth = shares(reached);
  const hopeful = [...states.keys()].filter((k) => before[k] >= 1e-18 * Math.max(...before));
  const near = (a: number, b: number) => Math.abs(states[a].bin - states[b].bin) <= Math.round(60 / spacing);
  return hopeful.filter((k) => hopeful.every((other) => !near(k, other) || worth[k] >= 1e-2 * worth[other]));
}

function judge(lattice: Lattice, trace: string) {
  const { states, sigma, pins } = lattice;
  const found = likeliestPath(states, new StepWeights(states), sigma, pins);
  const { best, second, paths, reached, knots } = enumerate(lattice, found);
  if (best.weight > second * (1 + 1e-6)) expect([...found.bin], trace).toEqual(best.path);
  expect(found.weight, trace).toBeCloseTo(Math.log(best.weight), 4);
  let dropped = 0;
  for (const [knot, { all, kept, sum }] of knots.entries()) {
    const on = worthGoingOn(reached[knot], all, states.bins.spacing);
    expect(
      kept.map(({ bin }) => bin),
      `${trace} knot ${knot}`,
    ).toEqual(on.map((k) => all[k].bin));
    dropped += all.length - kept.length;
    const top = Math.max(...reached[knot].map((one) => one.sum));
    for (const [k, state] of kept.entries()) {
      const weight = reached[knot][all.indexOf(state)].sum / top;
      expect(sum[k] / weight, `${trace} knot ${knot} state ${state.bin}`).toBeCloseTo(1, 4);
    }
  }
  return { best, paths, dropped };
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

test.each([
  ['ahead', 0, 60],
  ['back', 60, 0],
])('where no motion leads, a jump does, %s: from one leg straight to the other, 820 m along', (_, first, second) => {
  const fixes = Array.from({ length: 24 }, (_, k): TinyFix => ({ at: [20, k < 12 ? first : second], seconds: 20 * k }));
  const { bins, track } = tinyLattice(
    [
      [0, 0],
      [400, 0],
      [400, 60],
      [0, 60],
    ],
    fixes,
  );
  const states = new LatticeStates(bins, track, Int32Array.from(fixes.keys()), 60, 5);
  const { bin } = likeliestPath(states, new StepWeights(states), new Float64Array(bins.count).fill(5), []);
  const legs = [...bin].map((place) => (place * bins.spacing < 400 ? 0 : 60));
  expect(legs).toEqual(fixes.map((_, k) => (k < 12 ? first : second)));
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
  const { bin, kept, weight } = likeliestPath(
    states,
    new StepWeights(states),
    new Float64Array(bins.count).fill(2),
    [],
  );
  for (const [knot, place] of bin.entries()) expect(Math.abs(place * bins.spacing - 4 * knot)).toBeLessThan(10);
  expect(weight).toBeLessThan(-900);
  const room = new KnotStates();
  for (const knot of states.knots.keys()) {
    kept.read(knot, room);
    expect(Math.max(...room.sum.subarray(0, room.size))).toBe(1);
  }
});

test('from the first bin to the last', () => {
  const fixes = [0, 30, 60, 90, 125].map((at, k): TinyFix => ({ at: [at, 0], seconds: 10 * k }));
  const { bins, track } = tinyLattice(routes.straight, fixes);
  const states = new LatticeStates(bins, track, Int32Array.from(fixes.keys()), 6, 5);
  const { bin } = likeliestPath(states, new StepWeights(states), new Float64Array(bins.count).fill(5), []);
  const places = [...bin].map((place) => place * bins.spacing);
  for (const [k, place] of [0, 30, 60, 90, 120].entries()) expect(Math.abs(places[k] - place)).toBeLessThan(3);
  expect([bin[0], bin[4]]).toEqual([0, bins.count - 1]);
});

test('where each knot has one state only, through all of them', () => {
  const told = [0, 100, 200, 399].map((bin, knot): ToldKnot => {
    const led = { best: 1, sum: 1, from: 0 };
    return { states: [knot > 0 ? { bin, led } : { bin }], outside: 0 };
  });
  const { states, steps, pins } = toldLattice(told);
  expect([...likeliestPath(states, steps, sigma, pins).bin]).toEqual([0, 100, 200, 399]);
});

test('no fix, no path', () => {
  const { bins, track } = tinyLattice(routes.straight, [{ at: [0, 900], seconds: 0 }]);
  const states = new LatticeStates(bins, track, Int32Array.of(0), 9, 5);
  const { bin } = likeliestPath(states, new StepWeights(states), new Float64Array(bins.count).fill(5), []);
  expect(bin.length).toBe(0);
  // near enough to be followed, but nowhere within reach
  const beside = tinyLattice(routes.straight, [{ at: [60, 90], seconds: 0 }]);
  const none = new LatticeStates(beside.bins, beside.track, Int32Array.of(0), 9, 5);
  const path = likeliestPath(none, new StepWeights(none), new Float64Array(beside.bins.count).fill(5), []);
  expect([none.knots.length, path.bin.length]).toEqual([1, 0]);
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
