import { withGlitches } from './glitches';
import { circle, type PlanePoint } from './planeRoute';
import { seeded } from './randomLine';
import { type RideOptions, type SimulatedRide, simulateRide } from './simulateRide';

/** Two ways side by side, the one 600 m north, the other back south, with a loop of so many metres between twin places. */
export function twinWays(apart: number, between: number): { points: PlanePoint[]; centre: number } {
  const leg = 600;
  // of twin places so far from the turn, the way from one to the other: up, across and down again, or over a block
  const rest = Math.min(Math.max((between - apart) / 2, 100), 300);
  const centre = leg - rest;
  const block = Math.max((between - apart - 2 * rest) / 2, 0);
  const east = block > 0 ? block / 2 : 0;
  const points: PlanePoint[] =
    block > 0
      ? [
          [0, 0],
          [0, leg],
          [east, leg],
          [east, leg + east],
          [-apart, leg + east],
          [-apart, 0],
          [-apart - 400, 0],
        ]
      : [
          [0, 0],
          [0, leg],
          [-apart, leg],
          [-apart, 0],
          [-apart - 400, 0],
        ];
  return { points, centre };
}

interface PushChoice {
  readonly by: number;
  readonly seconds: number;
  readonly ramp: number;
  readonly between: number;
  readonly interval: number;
  readonly sigma: number;
}

/** A push onto the way beside, on the way there or, every other seed, on the way back. */
export function pushedRide({ by, seconds, ramp, between, interval, sigma }: PushChoice, seed: number): SimulatedRide {
  const { points, centre } = twinWays(by, between);
  const route = simulateRide(points, { seed, sigma: 0, interval: 1000 }).route;
  const there = seed % 2 === 0;
  const legEnd = 600;
  // of the way back the twin place, as far before the end of its leg as the leg has left
  const place = there ? centre : route.length - 400 - centre;
  const half = (3 * seconds) / 2 + 3 * ramp;
  const latest = there ? legEnd - half - 5 : route.length - 400 - half - 5;
  const at = Math.min(place, latest) / 3 - seconds / 2;
  const push = { at, seconds, ramp, by: [there ? -by : by, 0] as PlanePoint };
  return simulateRide(points, { seed, sigma, interval, pushes: [push] });
}

const offsets = [25, 35, 40, 50, 60];
const lasting = [3, 5, 10, 20, 60];
const ramps = [0, 10, 20];
const loops = [300, 600, 1_500, 4_000];
const intervals = [1, 5, 10, 15];
const sigmas = [3, 5, 8, 12];

/** Every push there is, in an order that changes all of it from one to the next. */
export function pushes(count: number, begin = 0): PushChoice[] {
  const random = seeded(97 + begin);
  const pick = <T>(values: readonly T[]) => values[Math.floor(random() * values.length)];
  return Array.from({ length: count }, () => ({
    by: pick(offsets),
    seconds: pick(lasting),
    ramp: pick(ramps),
    between: pick(loops),
    interval: pick(intervals),
    sigma: pick(sigmas),
  }));
}

/** Blocks of a town, 120 m by 80 m, gone round so that most fixes have another pass within two blocks. */
const town: PlanePoint[] = [
  [0, 0],
  [0, 240],
  [80, 240],
  [80, 0],
  [160, 0],
  [160, 240],
  [240, 240],
  [240, 120],
  [-80, 120],
  [-80, 0],
  [240, 0],
  [240, -120],
];

/** Fixes thrown across blocks. */
export function thrownRide(
  by: number,
  seconds: number,
  choice: { interval: number; sigma: number },
  seed: number,
): SimulatedRide {
  const random = seeded(seed * 31 + by);
  const angle = 2 * Math.PI * random();
  const at = 60 + 350 * random();
  return simulateRide(town, {
    ...choice,
    seed,
    pushes: [{ at, seconds, ramp: 0, by: [by * Math.cos(angle), by * Math.sin(angle)] }],
  });
}

const block: readonly PlanePoint[] = [
  [0, 400],
  [30, 400],
  [30, 0],
  [0, 0],
];

/** Ways on which a fix thrown aside lies beside another pass, and one on which it lies beside none. */
export const ways: Readonly<Record<string, readonly PlanePoint[]>> = {
  'streets 30 m apart': [[0, 0], ...block, ...block, ...block],
  'laps, then out and back': [[-200, 0], ...circle([0, 80], 80, -90, 1080), [450, 0], [0, 0]],
  'out and back': [
    [0, 0],
    [300, 500],
    [900, 500],
    [900, 900],
    [900, 500],
    [300, 500],
    [0, 0],
  ],
  'round blocks': town,
  'in the open': [
    [0, 0],
    [700, 200],
    [1500, -100],
    [2200, 700],
  ],
};

/** Up to a round lap, laps of it, then a tail. */
export function lapLine(
  planned: number,
  { radius = 64, tail = 300 } = {},
): { points: PlanePoint[]; lap: number; begin: number } {
  const points: PlanePoint[] = [[-200, 0], ...circle([0, radius], radius, -90, 360 * planned), [tail, 0]];
  const one = circle([0, radius], radius, -90, 360);
  const lap = one.reduce((sum, [x, y], i) => (i > 0 ? sum + Math.hypot(x - one[i - 1][0], y - one[i - 1][1]) : 0), 0);
  return { points, lap, begin: 200 };
}

/** So many laps ridden of so many planned. */
export function lapsRide(
  planned: number,
  ridden: number,
  options: RideOptions & { radius?: number; tail?: number },
): SimulatedRide {
  const { points, lap, begin } = lapLine(planned, options);
  const { tail = 300 } = options;
  const end = begin + planned * lap;
  const stretches =
    ridden <= planned
      ? [
          { from: 0, to: begin + ridden * lap },
          { from: end, to: end + tail - 1 },
        ]
      : [
          { from: 0, to: end },
          ...Array.from({ length: ridden - planned }, () => ({ from: end - lap, to: end })),
          { from: end, to: end + tail - 1 },
        ];
  return simulateRide(points, { ...options, ridden: stretches });
}

/** So many rides with laps left out or ridden again, the last ones. */
export function wrongLaps(count: number, begin: number): SimulatedRide[] {
  return Array.from({ length: count }, (_, k) => {
    const [planned, ridden] = (
      [
        [4, 3],
        [3, 4],
        [4, 2],
        [5, 4],
        [3, 2],
        [5, 3],
      ] as const
    )[k % 6];
    const options = { seed: 1000 * begin + k, interval: [1, 5][(k >> 1) % 2], sigma: [3, 5, 8][(k >> 2) % 3] };
    return lapsRide(planned, ridden, options);
  });
}

/** A straight with a loop to one side where it crosses itself; the loop not ridden. */
export function skippedLoop(length: number, options: RideOptions): SimulatedRide {
  const radius = length / (2 * Math.PI);
  const points: PlanePoint[] = [[-600, 0], ...circle([0, radius], radius, -90, 360), [600, 0]];
  const one = circle([0, radius], radius, -90, 360);
  const round = one.reduce((sum, [x, y], i) => (i > 0 ? sum + Math.hypot(x - one[i - 1][0], y - one[i - 1][1]) : 0), 0);
  return simulateRide(points, {
    ...options,
    ridden: [
      { from: 0, to: 600 },
      { from: 600 + round, to: 1_200 + round - 1 },
    ],
  });
}

/** Loops left out: how long they are, and how each is recorded. */
export function loopChoices(count: number, begin: number) {
  return Array.from({ length: count }, (_, k) => ({
    length: [150, 300, 600][(k >> 2) % 3],
    seed: 1000 * begin + k,
    interval: [1, 5, 30][k % 3],
    sigma: [3, 8][(k >> 1) % 2],
  }));
}

/** A stretch of the line left out straight across: two ways so far apart, one cut over to the other. */
export function cutAcross(apart: number, options: RideOptions): SimulatedRide {
  const { points } = twinWays(apart, 1_500);
  const { route } = simulateRide(points, { seed: 1, interval: 1000 });
  return simulateRide(points, {
    ...options,
    ridden: [
      { from: 0, to: 300 },
      { from: route.length - 400 - 300, to: route.length - 1 },
    ],
  });
}

/** So many rides of each kind, other ones for each `begin`: 0 is what the constants of the placing were chosen on. A thrown fix has no truth. */
export const hardRides: Readonly<Record<string, (count: number, begin: number) => SimulatedRide[]>> = {
  'pushed onto a way 25–60 m beside': (count, begin) =>
    pushes(count, begin).map((choice, k) => pushedRide(choice, 1000 * begin + k)),
  'thrown 60–150 m across blocks': (count, begin) =>
    Array.from({ length: count }, (_, k) => {
      const choice = { interval: [1, 5, 10][k % 3], sigma: [3, 5, 8][(k >> 2) % 3] };
      return thrownRide([60, 90, 120, 150][k % 4], [5, 20, 60][(k >> 1) % 3], choice, 1000 * begin + k);
    }),
  'a loop left out at its crossing': (count, begin) =>
    loopChoices(count, begin).map(({ length, ...options }) => skippedLoop(length, options)),
  'cut across to the way back': (count, begin) =>
    Array.from({ length: count }, (_, k) => {
      const options = { seed: 1000 * begin + k, interval: [1, 5, 15][k % 3], sigma: [3, 5, 8, 12][(k >> 1) % 4] };
      return cutAcross([30, 60, 100, 200][(k >> 2) % 4], options);
    }),
  'one fix in fifty thrown 20–400 m aside': (count, begin) =>
    Array.from({ length: count }, (_, k) => {
      const points = Object.values(ways)[k % 5];
      const options = { seed: 1000 * begin + k, interval: [1, 5, 10][k % 3], sigma: [3, 5, 8][(k >> 1) % 3] };
      const ride = withGlitches(
        simulateRide(points, options),
        { share: 1 / 50, inRow: k % 2 === 0 ? 1 : 2 },
        options.seed,
      );
      return { ...ride, alongTrack: ride.alongTrack.map((place, i) => (ride.thrown[i] === 1 ? Number.NaN : place)) };
    }),
  'laps as planned, then a tail': (count, begin) =>
    Array.from({ length: count }, (_, k) =>
      lapsRide(3, 3, { seed: 1000 * begin + k, interval: [1, 5, 15][k % 3], sigma: [3, 5, 8, 12][(k >> 1) % 4] }),
    ),
};
