import { expect, test } from 'vitest';
import { percentileLimits } from '../../src/truth/percentileLimits';
import { TimedFigures } from '../../src/truth/TimedFigures';
import { correlatedOffsets, normals } from '../support/correlatedOffsets';

const sigmas = [3, 5, 8];

/** Three receivers of errors that last 15 s, each of its own size, 900 s by the clock. */
function columns(seed: number) {
  const normal = normals(seed);
  return sigmas.map((sigma) => {
    const [along, across] = [0, 1].map(() => correlatedOffsets(normal, { seconds: 900, correlation: 15, sigma }));
    const horizontal = along.map((value, i) => Math.hypot(value, across[i]));
    const none = along.map(() => Number.NaN);
    return { horizontal, along, across, up: none, east: along, north: across, speed: none };
  });
}

/** Of an error of 1 m an axis: the normal distribution's quantiles from its table, the circular one's in closed form. */
const rayleigh = (share: number) => Math.sqrt(-2 * Math.log(1 - share));
const truths = {
  along: { sd: 1, rms: 1, p50: 0.67449, p68: 0.99446, p75: 1.15035, p95: 1.95996 },
  horizontal: {
    sd: Math.sqrt(2 - Math.PI / 2),
    rms: Math.SQRT2,
    p50: rayleigh(0.5),
    p68: rayleigh(0.68),
    p75: rayleigh(0.75),
    p95: rayleigh(0.95),
  },
} as const;
const spreads = ['sd', 'rms', 'p50', 'p68', 'p75', 'p95'] as const;

test('intervals of percentiles, spread and radii hold the truth as often as they say', () => {
  const trials = 60;
  const held: Record<string, number> = {};
  const range = { first: 0, end: 900 };
  for (let trial = 0; trial < trials; trial++) {
    const figures = new TimedFigures(columns(61_000 + trial), [range]);
    sigmas.forEach((sigma, k) => {
      const told = figures.figures(k, range, 0);
      const note = (name: string, [low, high]: readonly [number, number], truth: number) => {
        held[name] = (held[name] ?? 0) + (low <= sigma * truth && sigma * truth <= high ? 1 : 0);
      };
      for (const kind of ['along', 'horizontal'] as const) {
        for (const name of spreads) note(`${kind} ${name}`, told[kind]!.intervals95![name], truths[kind][name]);
      }
      note('cep50', told.circularIntervals95!.cep50, rayleigh(0.5));
      note('ce95', told.circularIntervals95!.ce95, rayleigh(0.95));
    });
  }
  // 95 % of 180 that are not all independent: 3 standard errors below; wider than they need be some are
  for (const [name, count] of Object.entries(held)) expect(count / trials / 3, name).toBeGreaterThan(0.89);
  expect(Object.values(held).reduce((sum, one) => sum + one, 0) / (14 * 3 * trials)).toBeLessThan(0.985);
});

test('each interval holds its own figure, and none is given where there is too little', () => {
  const range = { first: 0, end: 900 };
  const figures = new TimedFigures(columns(7), [range]);
  sigmas.forEach((_, k) => {
    const { horizontal } = figures.figures(k, range, 0);
    for (const name of spreads) {
      const [low, high] = horizontal!.intervals95![name];
      expect(low).toBeLessThan(horizontal![name]);
      expect(high).toBeGreaterThan(horizontal![name]);
    }
  });
  const short = { first: 0, end: 4 };
  const few = new TimedFigures(
    columns(7).map((one) => ({
      ...one,
      horizontal: one.horizontal.subarray(0, 4),
      along: one.along.subarray(0, 4),
      across: one.across.subarray(0, 4),
      up: one.up.subarray(0, 4),
      east: one.east.subarray(0, 4),
      north: one.north.subarray(0, 4),
    })),
    [short],
  ).figures(0, short, 0);
  expect(few.horizontal!.p95).toBeGreaterThan(0);
  expect(few.horizontal!.intervals95).toBeNull();
  expect(few.circularIntervals95).toBeNull();
});

test('a percentile of many independent errors has the interval of large samples: √(p(1 − p)/n) over the density', () => {
  const normal = normals(5);
  const n = 40_000;
  const sizes = Float64Array.from({ length: n }, () => Math.hypot(normal(), normal())).sort();
  const scatter = sizes.reduce((sum, size) => sum + (size * size - 2) ** 2 / n, 0);
  const squares = { mean: 2, variance: scatter / n, degrees: 1e6, samples: n };
  for (const share of [0.5, 0.75, 0.95]) {
    const found = rayleigh(share);
    // the density of a circular error of 1 m an axis
    const density = found * Math.exp((-found * found) / 2);
    const half = (1.96 * Math.sqrt((share * (1 - share)) / n)) / density;
    const [low, high] = percentileLimits(sizes, share, squares);
    // by simulation they are made 8 % narrower: errors of percentiles last less long than the squares'
    expect(Math.abs((high - low) / 2 / (0.92 * half) - 1)).toBeLessThan(0.06);
  }
});

test('constant errors have intervals of no length, not NaN', () => {
  const flat = new Float64Array(300).fill(2);
  const squares = { mean: 4, variance: 0, degrees: 3, samples: 300 };
  expect(percentileLimits(flat, 0.95, squares)).toEqual([2, 2]);
  const zero = new Float64Array(300);
  const none = zero.map(() => Number.NaN);
  const range = { first: 0, end: 300 };
  const column = { horizontal: zero, along: zero, across: zero, up: none, east: zero, north: zero, speed: none };
  const told = new TimedFigures([column], [range]).figures(0, range, 0);
  expect(told.horizontal!.intervals95).toEqual({
    sd: [0, 0],
    rms: [0, 0],
    p50: [0, 0],
    p68: [0, 0],
    p75: [0, 0],
    p95: [0, 0],
  });
  expect(told.circularIntervals95).toEqual({ cep50: [0, 0], ce95: [0, 0] });
});
