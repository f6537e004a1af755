import {
  bufferWidth,
  direct,
  hausdorff,
  offsetRoute,
  type Route,
  readCsv,
  routeBuilder,
  routeFromLine,
  sliceRoute,
} from 'datumline';
import type { Position } from 'geojson';
import type { Bench, BenchRow } from './support/Bench';
import { medianTime } from './support/medianTime';
import { promised } from './support/promised';
import { showTime } from './support/showTime';

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
    row('read CSV of shortest rows', 400_000, (n) => () => readCsv(table(n))[0].lon.length),
  ];
};
