import { describe, expect, test } from 'vitest';
import { earthCentred } from '../../src/geodesy/earthCentred';
import type { Section } from '../../src/model';
import { Bins } from '../../src/snap/Bins';
import { KnotStates } from '../../src/snap/KnotStates';
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

/** Metres from every bin to a fix. */
function awayFrom(fix: number): number[] {
  const [x, y, z] = earthCentred(track.lon[fix], track.lat[fix]);
  return Array.from(bins.x, (_, k) => Math.hypot(bins.x[k] - x, bins.y[k] - y, bins.z[k] - z));
}

/** Of the bins within a distance, of each run of them those that lie no further along than `around` from its nearest. */
function landings(fix: number, distance: number, around: number): number[] {
  const away = awayFrom(fix);
  const near = [...away.keys()].filter((k) => away[k] <= distance + bins.spacing / 2);
  const runs: number[][] = [];
  for (const bin of near) {
    const run = runs[runs.length - 1];
    if (run !== undefined && run[run.length - 1] === bin - 1) run.push(bin);
    else runs.push([bin]);
  }
  return runs.flatMap((run) => {
    const least = Math.min(...run.map((bin) => away[bin]));
    return run.filter((bin) => away[bin] ** 2 <= least ** 2 + around ** 2);
  });
}

/** The rule in words: where steps lead and no further than 200 m off, and what lies within reach; or else within 200 m. */
function candidates(
  fix: number,
  before: readonly number[],
  [lowest, highest]: readonly [number, number],
  { reach, largest }: { reach: number; largest: number },
): { led: number[]; all: number[] } {
  const away = awayFrom(fix);
  const far = Math.max(200, reach);
  const led = [...away.keys()].filter(
    (bin) => away[bin] <= far && before.some((from) => bin - from >= lowest && bin - from <= highest),
  );
  const around = before.length > 0 ? 10 + 1.5 * largest : Infinity;
  let all = [...new Set([...led, ...landings(fix, reach, around)])];
  if (all.length === 0 && before.length > 0) all = landings(fix, far, around);
  return { led, all: all.sort((a, b) => a - b) };
}

function stateOf(bin: readonly number[]): KnotStates {
  const states = new KnotStates();
  for (const one of bin) states.add(one);
  return states;
}

describe.each([
  ['60 m', 60, 5],
  ['60 m, a rough receiver', 60, 20],
  ['12 m', 12, 5],
  ['300 m, further than passes are followed otherwise', 300, 5],
  ['1 m, so that some fixes have nothing near', 1, 5],
])('within a reach of %s', (_, reach, largest) => {
  const states = new LatticeStates(bins, track, every, reach, largest);
  const steps: (readonly [number, number])[] = [
    [-3, 4],
    [0, 0],
    [2, 9],
    [-200, 200],
  ];

  test('the first knot has all that is within reach', () => {
    for (const [knot, fix] of states.knots.entries()) {
      const into = new KnotStates();
      states.write(knot, new KnotStates(), -3, 4, into);
      expect([...into.bin.subarray(0, into.size)]).toEqual(candidates(fix, [], [0, 0], { reach, largest }).all);
    }
  });

  test('the others what steps lead to, near or far, and of other passes what lies around the foot of the fix', () => {
    const random = seeded(reach + largest);
    for (const [knot, fix] of states.knots.entries()) {
      for (const [lowest, highest] of steps) {
        const before = [...bins.x.keys()].filter(() => random() < 0.06);
        if (before.length === 0) continue;
        const into = new KnotStates();
        states.write(knot, stateOf(before), lowest, highest, into);
        const { led, all } = candidates(fix, before, [lowest, highest], { reach, largest });
        const found = [...into.bin.subarray(0, into.size)];
        expect(found, `knot ${knot}, ${lowest} to ${highest}`).toEqual(all);
        // marked are those that no step leads to
        found.forEach((bin, k) => {
          if (led.length > 0) expect(into.marked[k]).toBe(led.includes(bin) ? 0 : 1);
        });
      }
    }
  });
});

describe('a way of 6 km out and back, 20 m aside', () => {
  const far: TinyFix[] = [
    { at: [1000, 10], seconds: 0 },
    { at: [5000, 10], seconds: 10 },
    { at: [5000, 100], seconds: 20 },
    { at: [3000, 10], seconds: 30 },
  ];
  const long = tinyLattice(
    [
      [0, 0],
      [6000, 0],
      [6000, 20],
      [0, 20],
    ],
    far,
    { maxSpacing: 10 },
  );
  const { spacing } = long.bins;
  const states = new LatticeStates(long.bins, long.track, Int32Array.from(far.keys()), 60, 5);
  const binAt = (along: number) => Math.round(along / spacing);
  /** Where along the route the states of a fix lie, to the 100 m, each place once. */
  const places = (knot: number, before: readonly number[], lost: boolean, [lowest, highest] = [0, 2]) => {
    const from = stateOf(before.map(binAt).sort((a, b) => a - b));
    from.lost = lost;
    const into = new KnotStates();
    states.write(knot, from, lowest, highest, into);
    const bin = [...into.bin.subarray(0, into.size)];
    expect(bin).toEqual([...new Set(bin)].sort((a, b) => a - b));
    const marked = (one: number) => into.marked[bin.indexOf(one)];
    return { at: [...new Set(bin.map((one) => Math.round((one * spacing) / 100) * 100))], bin, marked };
  };

  test('a skip leads no further than 3.9 km on and 2.3 km back', () => {
    // at 1 km the way back lies at 11 020 m, at 5 km at 7 020 m, at 3 km at 9 020 m
    expect(places(0, [1000], false).at).toEqual([1000]);
    expect(places(0, [11_020], false).at).toEqual([11_000]);
    expect(places(1, [5000], false).at).toEqual([5000, 7000]);
    expect(places(1, [7020], false).at).toEqual([5000, 7000]);
    expect(places(3, [3000], false).at).toEqual([3000]);
    expect(places(3, [9020], false).at).toEqual([9000]);
    // from the furthest of several states on, and from the nearest back
    expect(places(0, [1000, 8000], false).at).toEqual([1000, 11_000]);
    expect(places(0, [3200, 11_020], false).at).toEqual([1000, 11_000]);
  });

  test('just within and just beyond', () => {
    const nearest = Math.min(...places(1, [5000], true).bin.filter((bin) => bin * spacing > 6500));
    const furthest = Math.max(...places(1, [5000], true).bin.filter((bin) => bin * spacing < 6500));
    const on = Math.ceil(3900 / spacing);
    const back = Math.ceil(2300 / spacing);
    const reached = (before: number, bin: number) => {
      const from = stateOf([before]);
      const into = new KnotStates();
      states.write(1, from, 0, 0, into);
      return into.bin.subarray(0, into.size).includes(bin);
    };
    expect(reached(nearest - on, nearest)).toBe(true);
    expect(reached(nearest - on - 1, nearest)).toBe(false);
    expect(reached(furthest + back, furthest)).toBe(true);
    expect(reached(furthest + back + 1, furthest)).toBe(false);
  });

  test('a body that seems lost may be on any pass, and so may one of which nothing is known', () => {
    expect(places(0, [1000], true).at).toEqual([1000, 11_000]);
    expect(places(3, [9020], true).at).toEqual([3000, 9000]);
    // all that lies within 60 m, 10 m aside: 59 m to either side, on both
    for (const lost of [false, true]) expect(places(0, [], lost).at).toEqual([900, 1000, 1100, 11_000, 11_100]);
  });

  test('where nothing is within reach and no step leads, the passes within 200 m, each around its foot, as no skips', () => {
    const { at, bin, marked } = places(2, [1000], false);
    expect(at).toEqual([5000, 7000]);
    for (const one of bin) expect(marked(one)).toBe(0);
    // 10 m and 1.5 standard deviations around the foot, of a right-angled triangle's third side
    for (const one of bin) {
      const foot = one * spacing < 6000 ? 5000 : 7020;
      expect(Math.abs(one * spacing - foot)).toBeLessThan(17.5 + spacing);
    }
    expect(bin.length).toBeGreaterThan(2);
    // where a step leads there, that is all
    expect(places(2, [5000], false).at).toEqual([5000]);
    // and nothing where nothing came before
    expect(places(2, [], false).at).toEqual([]);
  });
});

describe('seven times round a square', () => {
  const square: TinyFix[] = [{ at: [40, 3], seconds: 0 }];
  const corners = [
    [0, 0],
    [80, 0],
    [80, 80],
    [0, 80],
  ] as const;
  const laps = tinyLattice([...Array.from({ length: 7 }, () => corners).flat(), [0, 0]], square, { maxSpacing: 10 });
  const { spacing } = laps.bins;
  const lapsOf = (heaviest: number, lost: 'lost' | 'sound') => {
    const states = new LatticeStates(laps.bins, laps.track, Int32Array.of(0), 20, 5);
    const before = stateOf([Math.round(heaviest / spacing)]);
    before.heaviest = before.bin[0];
    before.lost = lost === 'lost';
    const into = new KnotStates();
    states.write(0, before, 0, 0, into);
    return [...new Set([...into.bin.subarray(0, into.size)].map((bin) => Math.floor((bin * spacing) / 320)))];
  };

  test('a skip leads to the three laps before, the three that follow, the first and the last', () => {
    expect(lapsOf(0, 'sound')).toEqual([0, 1, 2, 6]);
    expect(lapsOf(10, 'sound')).toEqual([0, 1, 2, 6]);
    // from where the fix lies, on the first lap, the first is none of those between
    expect(lapsOf(40, 'sound')).toEqual([0, 1, 2, 3, 6]);
    expect(lapsOf(120, 'sound')).toEqual([0, 1, 2, 3, 6]);
    expect(lapsOf(3 * 320 + 10, 'sound')).toEqual([0, 1, 2, 3, 4, 5, 6]);
    expect(lapsOf(5 * 320 + 10, 'sound')).toEqual([0, 2, 3, 4, 5, 6]);
    expect(lapsOf(6 * 320 + 300, 'sound')).toEqual([0, 4, 5, 6]);
  });

  test('a body that seems lost may be on any', () => {
    expect(lapsOf(10, 'lost')).toEqual([0, 1, 2, 3, 4, 5, 6]);
  });
});

test('where nothing is within reach and no step leads, every lap that passes within 200 m', () => {
  const corners = [
    [0, 0],
    [300, 0],
    [300, 300],
    [0, 300],
  ] as const;
  const beside: TinyFix[] = [{ at: [150, -150], seconds: 0 }];
  const laps = tinyLattice([...Array.from({ length: 7 }, () => corners).flat(), [0, 0]], beside, { maxSpacing: 10 });
  const states = new LatticeStates(laps.bins, laps.track, Int32Array.of(0), 20, 5);
  const before = stateOf([Math.round(750 / laps.bins.spacing)]);
  before.heaviest = before.bin[0];
  const into = new KnotStates();
  states.write(0, before, 0, 0, into);
  const along = [...into.bin.subarray(0, into.size)].map((bin) => bin * laps.bins.spacing);
  expect([...new Set(along.map((at) => Math.floor(at / 1200)))]).toEqual([0, 1, 2, 3, 4, 5, 6]);
});

test('what an earlier knot left behind counts for nothing', () => {
  const random = seeded(1335);
  const corners = [
    [0, 0],
    [80, 0],
    [80, 80],
    [0, 80],
  ] as const;
  const drawn = Array.from(
    { length: 40 },
    (_, k): TinyFix => ({ at: [100 * random() - 10, 100 * random() - 10], seconds: k }),
  );
  const laps = tinyLattice([...Array.from({ length: 9 }, () => corners).flat(), [0, 0]], drawn, { maxSpacing: 10 });
  const all = () => new LatticeStates(laps.bins, laps.track, Int32Array.from(drawn.keys()), 20, 5);
  const used = all();
  for (let round = 0; round < 400; round++) {
    const knot = Math.floor(random() * drawn.length);
    const before = stateOf([Math.floor(random() * laps.bins.count)]);
    before.heaviest = before.bin[0];
    const [again, first] = [used, all()].map((states) => {
      const into = new KnotStates();
      states.write(knot, before, 0, 3, into);
      return [...into.bin.subarray(0, into.size)];
    });
    expect(again, `round ${round}`).toEqual(first);
  }
});

/** Rounds of two squares in turn, and which of them a skip leads to from where the heaviest state lies. */
function twoSquares(aside: number) {
  const between: TinyFix[] = [{ at: [30, 6], seconds: 0 }];
  const rounds = Array.from({ length: 14 }, (_, k) => {
    const y = aside * (k % 2);
    return [
      [0, y],
      [60, y],
      [60, 60 + y],
      [0, 60 + y],
    ] as const;
  });
  const { bins, track } = tinyLattice([...rounds.flat(), [0, 0]], between, { maxSpacing: 10 });
  const states = new LatticeStates(bins, track, Int32Array.of(0), 20, 5);
  /** Metres along at which a round begins. */
  const begins = rounds.map((_, k) => 480 * Math.floor(k / 2) + (240 - aside) * (k % 2));
  return (heaviest: number) => {
    const before = stateOf([Math.round((heaviest / 3360) * (bins.count - 1))]);
    before.heaviest = before.bin[0];
    const into = new KnotStates();
    states.write(0, before, 0, 0, into);
    const along = [...into.bin.subarray(0, into.size)].map((bin) => 3360 * (bin / (bins.count - 1)));
    return [...new Set(along.map((at) => begins.filter((begin) => begin <= at + 30).length - 1))];
  };
}

describe('seven times round each of two squares in turn', () => {
  test('12 m apart: only passes of the same place count as copies', () => {
    const roundsOf = twoSquares(12);
    expect(roundsOf(10)).toEqual([0, 1, 2, 3, 4, 5, 12, 13]);
    expect(roundsOf(480 * 3 + 10)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13]);
    // 2.3 km back, where a skip leads no further, lies the first round of the second square, but not that of the first
    expect(roundsOf(480 * 5 + 10)).toEqual([1, 2, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13]);
  });
  test('3 m apart, less than a bin: one place', () => {
    expect(twoSquares(3)(10)).toEqual([0, 1, 2, 13]);
  });
});

test('where only every third bin is a state, it is one wherever each would be', () => {
  const states = [1, 3].map((one) => new LatticeStates(bins, track, every, 60, 5, one));
  const random = seeded(3);
  for (let round = 0; round < 200; round++) {
    const knot = Math.floor(random() * states[0].knots.length);
    const before = [...bins.x.keys()].filter((bin) => bin % 3 === 0 && random() < 0.06);
    const lowest = -Math.floor(10 * random());
    const highest = Math.floor(20 * random());
    const [all, some] = states.map((one) => {
      const into = new KnotStates();
      one.write(knot, stateOf(before), lowest, highest, into);
      return [...into.bin.subarray(0, into.size)].map((bin, k) => [bin, into.marked[k]]);
    });
    expect(some).toEqual(all.filter(([bin]) => bin % 3 === 0));
  }
});

test('a fix further than 200 m from the route is no knot', () => {
  const states = new LatticeStates(bins, track, every, 60, 5);
  expect([...states.knots]).toEqual([0, 1, 2, 3, 5, 6, 7, 8]);
  expect(new LatticeStates(bins, track, Int32Array.of(4), 60, 5).knots.length).toBe(0);
  expect(new LatticeStates(bins, track, new Int32Array(), 60, 5).knots.length).toBe(0);
  // but within the reach that is asked for
  expect(new LatticeStates(bins, track, Int32Array.of(4), 900, 5).knots.length).toBe(1);
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

test('leaving out a metre at an end costs 0.005, 80 at most: e to the power of less so much', () => {
  const { leftOut } = bins;
  expect(leftOut.length).toBe(bins.count);
  leftOut.forEach((weight, k) => {
    expect(weight).toBeCloseTo(Math.exp(-0.005 * k * bins.spacing), 6);
  });
  const long = tinyLattice(
    [
      [0, 0],
      [40_000, 0],
    ],
    fixes,
    { maxSpacing: 400 },
  );
  const far = long.bins.leftOut;
  expect(far[far.length - 1] / Math.exp(-80)).toBeCloseTo(1, 6);
  expect(far[1000] / Math.exp(-0.005 * 1000 * long.bins.spacing)).toBeCloseTo(1, 6);
});

describe('how well a state fits its fix', () => {
  const states = new LatticeStates(bins, track, every, 60, 5);
  const random = seeded(351);
  const sigma = Float64Array.from(bins.x, () => 2 + 9 * random());
  // of 30 s since the last knot, at least 1 s, a share of the whole weight; the first knot in full
  const shares = [1, 4 / 30, 5 / 30, 15 / 30, 1, 1, 1 / 30, 1];

  /** Student's t in two dimensions with 4 degrees of freedom, (1 + r² ÷ 4 σ²)⁻³, e to the power of -9 at least. */
  function fitOf(knot: number, bin: number): number {
    const r = Math.hypot(bins.x[bin] - states.x[knot], bins.y[bin] - states.y[knot], bins.z[bin] - states.z[knot]);
    return Math.max((1 + (r / (2 * sigma[bin])) ** 2) ** -3, Math.exp(-9));
  }

  /** The same as a density in two dimensions, which goes with 1 ÷ σ², to the power of a share; beside the least σ of the knot. */
  const densityOf = (knot: number, bin: number, least: number) =>
    (fitOf(knot, bin) * (least / sigma[bin]) ** 2) ** shares[knot];

  function written(knot: number, pins: readonly Pin[]) {
    const room = new KnotStates();
    states.write(knot, stateOf([...bins.x.keys()]), -500, 500, room);
    states.fit(knot, sigma, room);
    states.weigh(knot, pins, room);
    const least = Math.min(...Array.from(room.bin.subarray(0, room.size), (bin) => sigma[bin]));
    return Array.from({ length: room.size }, (_, k) => ({
      bin: room.bin[k],
      expected: densityOf(knot, room.bin[k], least),
      emission: room.emission[k],
      fit: room.fit[k],
      skip: room.skip[k],
      from: [room.x[k], room.y[k], room.z[k]],
    }));
  }

  test('states lie where their bins do, from the fix', () => {
    for (const knot of shares.keys()) {
      for (const { bin, from } of written(knot, [])) {
        for (const [k, axis] of (['x', 'y', 'z'] as const).entries()) {
          expect(from[k]).toBe(bins[axis][bin] - states[axis][knot]);
        }
      }
    }
  });

  test('a fix counted in full, and what a skip is worth: the same on a route without laps', () => {
    let wild = 0;
    for (const knot of shares.keys()) {
      for (const { bin, fit, skip } of written(knot, [])) {
        expect(fit / fitOf(knot, bin)).toBeCloseTo(1, 10);
        expect(skip).toBe(fit);
        if (fitOf(knot, bin) === Math.exp(-9)) wild++;
      }
    }
    expect(wild).toBeGreaterThan(50);
  });

  test('on a route with laps a skip amid them is worth e to the power of -5 as much', () => {
    const lap = (from: number, to: number, lap: number): Section => ({ name: 'lap', from, to, lap });
    const sections = [{ name: 'approach', from: 0, to: 100 }, lap(100, 180, 1), lap(180, 250, 1), lap(250, 400, 2)];
    const lapped = new Bins({ ...tinyLattice(route, fixes).route, sections });
    const amid = [...lapped.seam.keys()].filter((bin) => lapped.seam[bin] < 1);
    const ends = [100, 250, 400];
    const near = (bin: number) => Math.min(...ends.map((end) => Math.abs(end - bin * lapped.spacing)));
    expect(amid.every((bin) => near(bin) > 15 - lapped.spacing)).toBe(true);
    expect(amid.length).toBe([...lapped.seam.keys()].filter((bin) => near(bin) > 15 + lapped.spacing / 2).length);
    for (const bin of amid) expect(lapped.seam[bin]).toBeCloseTo(Math.exp(-5), 6);
    const room = stateOf([...lapped.x.keys()]);
    new LatticeStates(lapped, track, every, 60, 5).fit(3, new Float64Array(lapped.count).fill(5), room);
    for (let k = 0; k < room.size; k++) expect(room.skip[k]).toBeCloseTo(room.fit[k] * lapped.seam[room.bin[k]], 12);
  });

  test('outside the route a knot weighs as one gone wild, twice as much less as its fix fits a state', () => {
    for (const [knot, share] of shares.entries()) {
      const room = stateOf([3, 7, 20]);
      states.fit(knot, sigma, room);
      states.weigh(knot, [], room);
      const top = Math.max(...room.emission.subarray(0, 3));
      const least = Math.exp(-9 * share);
      expect(states.outside(knot, room) / (least ** 3 / top ** 2)).toBeCloseTo(1, 10);
      expect(states.outside(knot, new KnotStates()) / least).toBeCloseTo(1, 10);
    }
  });

  test.each(shares.map((share, knot) => [knot, share]))('knot %d: %d of its weight', (knot) => {
    const found = written(knot, []);
    expect(found.length).toBeGreaterThan(3);
    for (const { emission, expected } of found) expect(emission / expected).toBeCloseTo(1, 10);
  });

  test('pins on its fix are normal densities of the place along the route; those on others nothing', () => {
    const knot = 3;
    const pins: Pin[] = [
      { fix: 3, alongTrack: 100, sd: 30 },
      { fix: 5, alongTrack: 10, sd: 1 },
      { fix: 3, alongTrack: 130, sd: 20 },
    ];
    for (const { bin, emission, expected } of written(knot, pins)) {
      const place = bin * bins.spacing;
      const normal = Math.exp(-(((place - 100) / 30) ** 2) / 2) * Math.exp(-(((place - 130) / 20) ** 2) / 2);
      expect(emission / (expected * normal)).toBeCloseTo(1, 10);
    }
  });

  test('pins are told by the fix, not by the number of the knot', () => {
    const pin: Pin = { fix: 5, alongTrack: 100, sd: 30 };
    const found = (knot: number) => written(knot, [pin]).map(({ emission, expected }) => emission / expected);
    expect(found(4).some((share) => share < 0.9)).toBe(true);
    expect(found(5).every((share) => share > 0.999)).toBe(true);
  });

  test('pins that contradict each other leave every state something', () => {
    const pins: Pin[] = [0, 10_000, 20_000].map((alongTrack) => ({ fix: 3, alongTrack, sd: 0.1 }));
    const found = written(3, pins);
    expect(found.length).toBeGreaterThan(3);
    for (const { emission } of found) expect(emission).toBe(1e-200);
  });
});

test('of a recording that goes on, a knot taken as it comes has the states of one of the whole recording', () => {
  const whole = new LatticeStates(bins, track, every, 30, 5);
  const going = LatticeStates.ofNext(bins, 30, 5);
  const sigma = new Float64Array(bins.count).fill(5);
  const taken = (knot: number, admitted: number) => ({
    ...{ x: whole.x[knot], y: whole.y[knot], z: whole.z[knot], clock: whole.clock[knot] },
    ...{ interrupted: whole.interrupted[knot] as 0 | 1, admitted },
  });
  const written = (states: LatticeStates, knot: number, before: KnotStates) => {
    const room = new KnotStates();
    states.write(knot, before, -20, 20, room);
    states.fit(knot, sigma, room);
    const { size, bin, x, y, z, fit } = room;
    return { room, list: Array.from({ length: size }, (_, k) => [bin[k], x[k], y[k], z[k], fit[k]]) };
  };
  for (let knot = 1; knot < whole.knots.length; knot++) {
    going.take(0, taken(knot - 1, 0));
    going.take(1, taken(knot, 0));
    for (const column of ['x', 'y', 'z', 'clock', 'interrupted'] as const) {
      expect([...going[column]]).toEqual([whole[column][knot - 1], whole[column][knot]]);
    }
    const none = new KnotStates();
    const { room: before } = written(whole, knot - 1, none);
    expect(written(going, 1, before).list).toEqual(written(whole, knot, before).list);
    for (let k = 0; k < before.size; k++) {
      expect(before.skip[k]).toBeCloseTo(before.fit[k], 12);
    }
    const goes = written(going, 1, before).room;
    for (let k = 0; k < goes.size; k++) {
      expect(goes.skip[k]).toBeCloseTo(goes.fit[k] * bins.partings[goes.bin[k]], 12);
    }
    // a fix that says how uncertain it is is taken for no better
    going.take(1, taken(knot, 20));
    const doubted = written(going, 1, before).list.map(([, , , , fit]) => fit);
    const wide = new KnotStates();
    whole.write(knot, before, -20, 20, wide);
    whole.fit(knot, new Float64Array(bins.count).fill(20), wide);
    expect(doubted).toEqual([...wide.fit.subarray(0, wide.size)]);
  }
  expect(whole.knots.length).toBeGreaterThan(5);
});
