import {
  areaBetween,
  assess,
  bufferWidth,
  direct,
  discreteFrechet,
  frechet,
  hausdorff,
  offsetRoute,
  pointAt,
  type Recording,
  type Route,
  readCsv,
  recordingFrom,
  repeatedStretches,
  routeBuilder,
  routeFromLine,
  sliceRoute,
} from 'datumline';
import type { Position } from 'geojson';
import { normals } from '../test/support/correlatedOffsets';
import type { Bench, BenchRow } from './support/Bench';
import { medianTime } from './support/medianTime';
import { promised } from './support/promised';
import { showTime } from './support/showTime';
import { windingRide } from './support/windingRide';

const START: Position = [5.1234567, 60.1234567];

const laps = (count: number): Route =>
  routeBuilder({ lateral95: 1 })
    .start(START, { azimuth: 90 })
    .laps(count, (lap) =>
      lap
        .lineBy({ azimuth: 90, distance: 84 })
        .arc({ turn: 'left', radius: 36.5, sweep: 180 })
        .lineBy({ azimuth: 270, distance: 84 })
        .arc({ turn: 'left', radius: 36.5, sweep: 180 }),
    )
    .build();
/** Laps of 32 m in four sections, and a ride along them all. */
const sectionLaps = (count: number): [Route, Recording] => {
  const route = routeBuilder({ lateral95: 1, halfWidth: 5 })
    .start(START)
    .laps(count, (lap) => {
      for (const azimuth of [0, 90, 180, 270]) lap.section(`${azimuth}`).lineBy({ azimuth, distance: 8 });
    })
    .build();
  const fixes = Array.from({ length: Math.floor(route.length / 3) }, (_, i) => pointAt(route, 3 * i).position);
  return [route, recordingFrom({ lon: fixes.map(([lon]) => lon), lat: fixes.map(([, lat]) => lat), name: 'A' })];
};
const tinyLaps = (count: number): Route =>
  routeBuilder()
    .start(START)
    .laps(count, (lap) => [0, 90, 180, 270].reduce((b, azimuth) => b.lineBy({ azimuth, distance: 0.25 }), lap))
    .build();
const around = (count: number, angle: number, distance: number): Position[] =>
  Array.from({ length: count }, (_, i) => direct(START, i * angle, distance * (1 + (i % 7) / 7)).position);
const star = (legs: number) => routeFromLine(around(legs + 1, 180 - 180 / legs, 250), { maxSpacing: 2000 });
const standing = (fixes: number) => routeFromLine(around(fixes, 137.5, 0.5));
const zigzag = (n: number, lat: number): Position[] =>
  Array.from({ length: n }, (_, i) => [5 + i * 2e-5, lat + (i % 2) * 5e-4]);
const shuttle = (n: number, turn: number, lat: number): Position[] =>
  Array.from({ length: n }, (_, i) => [5 + 1e-4 * Math.abs((i % (2 * turn)) - turn), lat]);
const straight = (n: number, lat: number): Position[] => Array.from({ length: n }, (_, i) => [5 + i * 1e-4, lat]);
/** Fixes about one place, each by itself. */
const scattered = (n: number, seed: number): Position[] => {
  const normal = normals(seed);
  return Array.from({ length: n }, () => [5 + (3 * normal()) / 55_800, 60 + (3 * normal()) / 111_200]);
};
/** Fixes about one place whose error wanders: forgotten in five minutes. */
const wandering = (n: number, seed: number): Position[] => {
  const [normal, kept] = [normals(seed), Math.exp(-1 / 300)];
  const fresh = 3 * Math.sqrt(1 - kept ** 2);
  let [x, y] = [0, 0];
  return Array.from({ length: n }, () => {
    [x, y] = [kept * x + fresh * normal(), kept * y + fresh * normal()];
    return [5 + x / 55_800, 60 + y / 111_200];
  });
};
/** A line east of so many kilometres. */
const long = (kilometres: number, n: number, lat: number): Position[] =>
  Array.from({ length: n }, (_, i) => [5 + ((kilometres / 55.8) * i) / (n - 1), lat]);
const backAndForth = (n: number) => {
  const normal = normals(3);
  const alongTrack = Float64Array.from({ length: n }, () => 500 + Math.max(-499, Math.min(499, 150 * normal())));
  return { alongTrack, crossTrack: Float64Array.from(alongTrack, () => 4 * normal()) };
};
const table = (rows: number) => `lat,lon\n${'1,2\n1,3\n'.repeat(rows / 2)}`;

/** What once ran away: each at a size, and beside half of it. Work is held by counts in the tests; here is the time. */
export const run: Bench = ({ smoke }) => {
  const rounds = smoke ? 1 : 3;
  const row = (what: string, size: number, job: (size: number) => () => number, most?: number): BenchRow => {
    const n = smoke ? Math.max(4, size >> 6) : size;
    const { whole, half } = medianTime({ whole: job(n), half: job(n >> 1) }, rounds);
    const name = `${what}, ${n}`;
    const peers = [{ name: 'half as many', time: showTime(half) }];
    return most === undefined
      ? { what: name, ours: showTime(whole), peers }
      : { what: name, ...promised(whole, most), peers };
  };
  const widths = (what: string, n: number, make: (n: number) => [Position[], Position[]]): BenchRow => {
    const size = smoke ? n >> 6 : n;
    const [[a, b], [c, d]] = [make(size), make(size >> 1)];
    const times = medianTime(
      { width: () => bufferWidth(a, b), half: () => bufferWidth(c, d), hausdorff: () => hausdorff(a, b).distance },
      rounds,
    );
    return {
      what: `bufferWidth, ${what}, ${size} vertices`,
      ours: showTime(times.width),
      peers: [
        { name: 'half as many', time: showTime(times.half) },
        { name: 'our hausdorff', time: showTime(times.hausdorff) },
      ],
    };
  };
  /** Routes are built anew, as they keep the warnings they have found. */
  const warnings = (make: (n: number) => Route) => (n: number) => () => make(n).warnings.length;
  const tiny = sliceRoute(routeFromLine([START, direct(START, 45, 100).position]), 3, 3 + 1.5e-6);
  const still = medianTime({ tiny: () => offsetRoute(tiny, { side: 'left', metres: 3 }).length }, rounds).tiny;
  const kilometre = routeFromLine([START, direct(START, 90, 1000).position]);
  const { route, recordings } = windingRide(300);
  const many = (n: number) => Array.from({ length: n }, (_, i) => ({ recording: recordings[i % 6], receiver: `${i}` }));
  return [
    { what: 'offsetRoute of a route of 1.5 micrometres', ...promised(still, 100) },
    row('warnings of laps of 400 m, route built as well', 400, warnings(laps), 1000),
    row('laps of 1 m, built', 8000, (n) => () => tinyLaps(n).lon.length),
    row('warnings of a star of legs', 2000, warnings(star)),
    row('warnings of a route that stands still', 4000, warnings(standing)),
    widths('side by side', 8000, (n) => [straight(n, 60), straight(n, 60.0001)]),
    widths('zigzag', 4000, (n) => [zigzag(n, 60), zigzag(n, 60.0003)]),
    widths('back and forth', 4000, (n) => [shuttle(n, 50, 60), shuttle(n, 40, 60.0001)]),
    widths('1000 km apart', 2000, (n) => [straight(n, 60), straight(n, 69)]),
    widths('two that stand still', 1000, (n) => [scattered(n, 1), scattered(n, 2)]),
    row('frechet, two that stand still', 16_000, (n) => () => frechet(scattered(n, 1), scattered(n, 2))),
    row('frechet, two that stand still and wander', 36_000, (n) => () => frechet(wandering(n, 1), wandering(n, 2))),
    row('frechet, back and forth', 8000, (n) => () => frechet(shuttle(n, 50, 60), shuttle(n, 40, 60.0001))),
    row(
      'frechet, lines of so many km, 1000 km apart',
      400,
      (n) => () => frechet(long(n, 50, 60), long(n, 60, 69)),
      1000,
    ),
    row(
      'discreteFrechet, two that stand still',
      16_000,
      (n) => () => discreteFrechet(scattered(n, 1), scattered(n, 2)),
    ),
    row('areaBetween, back and forth over 1 km', 64_000, (n) => () => areaBetween(kilometre, backAndForth(n)).area),
    row('repeatedStretches of laps of 400 m, the next each', 400, (n) => {
      const route = laps(n);
      return () => repeatedStretches(route, { maxDistance: 5, pairs: 'next' }).length;
    }),
    row('assess, so many recordings of 300 m', 100, (n) => () => assess(route, many(n)).pairs.length),
    row('assess of laps of four sections', 400, (n) => {
      const [route, recording] = sectionLaps(n);
      return () => assess(route, [recording]).rows.length;
    }),
    row('read CSV of shortest rows', 400_000, (n) => () => readCsv(table(n))[0].lon.length),
  ];
};
