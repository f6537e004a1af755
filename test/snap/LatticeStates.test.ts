import { describe, expect, test } from 'vitest';
import { earthCentred } from '../../src/geodesy/earthCentred';
import { LatticeStates, type Pin } from '../../src/snap/LatticeStates';
import { seeded } from '../support/randomLine';
import { type TinyFix, tinyLattice } from '../support/tinyLattice';

/** Out, 45 m aside, back on a slant that comes near the way out, and across it: one, two or three passes within reach. */
const route = [
  [0, 0],
  [200, 0],
  [200, 45],
  [0, 10],
  [60, -40],
] as const;

const fixes: TinyFix[] = [
  { at: [3, 2], seconds: 0, gap: true },
  { at: [20, 4], seconds: 4 },
  { at: [60, 9], seconds: 9 },
  { at: [110, -8], seconds: 24, gap: true },
  { at: [120, 900], seconds: 40 },
  { at: [150, 17], seconds: 55 },
  { at: [205, 20], seconds: 90 },
  { at: [150, 40], seconds: 90.2 },
  { at: [26, -12], seconds: 150, gap: true },
];

const { bins, track } = tinyLattice(route, fixes);
const every = Int32Array.from(fixes.keys());

/** Bins within reach of a fix, and not much further from it than the nearest: each tried. */
function candidates(fix: number, reach: number, worse: number): number[] {
  const [x, y, z] = earthCentred(track.lon[fix], track.lat[fix]);
  const away = Array.from(bins.x, (_, k) => Math.hypot(bins.x[k] - x, bins.y[k] - y, bins.z[k] - z));
  const nearest = Math.min(...away);
  return [...away.keys()].filter((k) => away[k] <= reach + bins.spacing / 2 && away[k] <= nearest + worse);
}

const stateBins = (states: LatticeStates, knot: number) =>
  Array.from({ length: states.first[knot + 1] - states.first[knot] }, (_, state) => states.binOf(knot, state));

describe.each([
  ['30 m worse than the nearest', 60, 5, 30],
  ['30 m, however good the receiver', 60, 0.1, 30],
  ['4 standard deviations worse', 100, 20, 80],
  ['within reach', 12, 5, 30],
])('states of a knot are all bins not %s', (_, reach, largest, worse) => {
  const states = new LatticeStates(bins, track, every, reach, largest);
  const kept = [...every].filter((fix) => candidates(fix, reach, worse).length > 0);

  test('of every pass, knot by knot; a fix without any is no knot', () => {
    expect([...states.knots]).toEqual(kept);
    expect(kept).not.toContain(4);
    expect(states.first[0]).toBe(0);
    for (const [knot, fix] of kept.entries()) {
      expect(stateBins(states, knot)).toEqual(candidates(fix, reach, worse));
    }
    expect(states.widest).toBe(Math.max(...kept.map((fix) => candidates(fix, reach, worse).length)));
    expect(states.bins).toBe(bins);
  });

  test('written out, they are as numbered', () => {
    const room = states.room();
    expect(room.size).toBe(0);
    expect([room.bin.length, room.emission.length]).toEqual([states.widest, states.widest]);
    const sigma = new Float64Array(bins.count).fill(5);
    for (const knot of [...kept.keys()].reverse()) {
      states.write(knot, sigma, [], room);
      expect([...room.bin.subarray(0, room.size)]).toEqual(stateBins(states, knot));
    }
  });
});

test('there are knots with one run of bins, with several, and with a bin alone', () => {
  const runs = [...every].map((fix) => {
    const found = candidates(fix, 12, 30);
    return found.filter((bin, k) => k === 0 || bin !== found[k - 1] + 1).length;
  });
  expect(runs).toEqual(expect.arrayContaining([0, 1, 2]));
  // 21 m beside the start: the bin there, the next half a metre further away
  const lone = tinyLattice(
    [
      [0, 0],
      [100, 0],
    ],
    [{ at: [0, 21], seconds: 0 }],
  );
  const states = new LatticeStates(lone.bins, lone.track, Int32Array.of(0), 21.2 - lone.bins.spacing / 2, 1);
  expect(stateBins(states, 0)).toEqual([0]);
});

test('what was found near one fix is nothing to the next', () => {
  // more bins near the first fix, on the route, than near the second, 50 m off it; then one whose first is bin 3
  const { bins, track } = tinyLattice(
    [
      [0, 0],
      [200, 0],
    ],
    [
      { at: [100, 0], seconds: 0 },
      { at: [100, 50], seconds: 10 },
    ],
  );
  const both = new LatticeStates(bins, track, Int32Array.of(0, 1), 60, 5);
  const alone = new LatticeStates(bins, track, Int32Array.of(1), 60, 5);
  expect(stateBins(both, 1).length).toBeGreaterThan(10);
  expect(stateBins(both, 1)).toEqual(stateBins(alone, 0));
  const third = tinyLattice(
    [
      [0, 0],
      [200, 0],
    ],
    [
      { at: [20 * bins.spacing, 0], seconds: 0 },
      { at: [4 * bins.spacing, 0], seconds: 10 },
    ],
  );
  const few = new LatticeStates(third.bins, third.track, Int32Array.of(0, 1), 4, 5);
  expect(stateBins(few, 0).length).toBe(3);
  expect(stateBins(few, 1)).toEqual([3, 4, 5]);
});

test('each knot knows its fix: where, when, and whether the recording was interrupted since the knot before', () => {
  const states = new LatticeStates(bins, track, every, 60, 5);
  for (const [knot, fix] of states.knots.entries()) {
    expect([states.x[knot], states.y[knot], states.z[knot]]).toEqual(earthCentred(track.lon[fix], track.lat[fix]));
    expect(states.clock[knot]).toBe(fixes[fix].seconds);
  }
  expect([...states.knots]).toEqual([0, 1, 2, 3, 5, 6, 7, 8]);
  // nothing was interrupted before the first
  expect([...states.interrupted.subarray(0, 8)]).toEqual([0, 0, 0, 1, 0, 0, 0, 1]);
  // fixes that are no knots count: the gap before fix 3 lies between knots 2 and 5, fix 4 being out of reach
  const few = new LatticeStates(bins, track, Int32Array.of(1, 2, 4, 5, 7), 60, 5);
  expect([...few.knots]).toEqual([1, 2, 5, 7]);
  expect([...few.interrupted.subarray(0, 4)]).toEqual([0, 0, 1, 0]);
  const late = new LatticeStates(bins, track, Int32Array.of(3, 5), 60, 5);
  expect([...late.interrupted.subarray(0, 2)]).toEqual([0, 0]);
});

test('no knots where no fix is in reach, or none is given', () => {
  for (const knots of [Int32Array.of(4), new Int32Array()]) {
    const states = new LatticeStates(bins, track, knots, 60, 5);
    expect([states.knots.length, states.widest, states.first[0]]).toEqual([0, 0, 0]);
  }
});

test('leaving out a metre at an end costs 0.005: e to the power of less so much', () => {
  const states = new LatticeStates(bins, track, every, 60, 5);
  expect(states.leftOut(0)).toBe(1);
  expect(states.leftOut(1)).toBeCloseTo(Math.exp(-0.005 * bins.spacing), 15);
  expect(states.leftOut(40)).toBeCloseTo(Math.exp(-0.2 * bins.spacing), 15);
});

describe('how well a state fits its fix', () => {
  const states = new LatticeStates(bins, track, every, 60, 5);
  const random = seeded(351);
  const sigma = Float64Array.from(bins.x, () => 2 + 9 * random());
  // of 30 s since the last knot, at least 1 s, a share of the whole weight; the first knot in full
  const shares = [1, 4 / 30, 5 / 30, 15 / 30, 1, 1, 1 / 30, 1];

  /** Student's t in two dimensions with 4 degrees of freedom, (1 + r² ÷ 4 σ²)⁻³, to the power of a share. */
  function expected(knot: number, bin: number): number {
    const r = Math.hypot(bins.x[bin] - states.x[knot], bins.y[bin] - states.y[knot], bins.z[bin] - states.z[knot]);
    return (1 + (r / (2 * sigma[bin])) ** 2) ** (-3 * shares[knot]);
  }

  function written(knot: number, pins: readonly Pin[]) {
    const room = states.room();
    states.write(knot, sigma, pins, room);
    return Array.from({ length: room.size }, (_, k) => ({ bin: room.bin[k], emission: room.emission[k] }));
  }

  test.each(shares.map((share, knot) => [knot, share]))('knot %d: %d of its weight', (knot) => {
    const found = written(knot, []);
    expect(found.length).toBeGreaterThan(3);
    for (const { bin, emission } of found) expect(emission / expected(knot, bin)).toBeCloseTo(1, 10);
  });

  test('pins on its fix are normal densities of the place along the route; those on others nothing', () => {
    const knot = 3;
    const pins: Pin[] = [
      { fix: 3, alongTrack: 100, sd: 30 },
      { fix: 5, alongTrack: 10, sd: 1 },
      { fix: 3, alongTrack: 130, sd: 20 },
    ];
    for (const { bin, emission } of written(knot, pins)) {
      const place = bin * bins.spacing;
      const normal = Math.exp(-(((place - 100) / 30) ** 2) / 2) * Math.exp(-(((place - 130) / 20) ** 2) / 2);
      expect(emission / (expected(knot, bin) * normal)).toBeCloseTo(1, 10);
    }
  });

  test('pins are told by the fix, not by the number of the knot', () => {
    const pin: Pin = { fix: 5, alongTrack: 100, sd: 30 };
    const sure = ({ bin, emission }: { bin: number; emission: number }, knot: number) => emission / expected(knot, bin);
    expect(written(4, [pin]).some((state) => sure(state, 4) < 0.9)).toBe(true);
    expect(written(5, [pin]).every((state) => sure(state, 5) > 0.999)).toBe(true);
  });

  test('pins that contradict each other leave every state something', () => {
    const pins: Pin[] = [0, 10_000, 20_000].map((alongTrack) => ({ fix: 3, alongTrack, sd: 0.1 }));
    const found = written(3, pins);
    expect(found.length).toBeGreaterThan(3);
    for (const { emission } of found) expect(emission).toBe(1e-200);
  });
});
