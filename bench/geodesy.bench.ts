import { lineString, nearestPointOnLine, length as turfLength, point as turfPoint } from '@turf/turf';
import CheapRuler from 'cheap-ruler';
import {
  direct,
  interpolate,
  intersection,
  inverse,
  lineLength,
  pointToGeodesic,
  pointToSegment,
} from 'datumline/geodesy';
import type { Position } from 'geojson';
import { EdgeFeet } from '../src/geodesy/EdgeFeet';
import { Geodesic, WGS84 } from '../src/geodesy/ellipsoid';
import { bruteFoot } from '../test/support/bruteFoot';
import { jittered, seeded, wanderingLine } from '../test/support/randomLine';
import type { Bench } from './support/Bench';
import { medianTime } from './support/medianTime';
import { promised } from './support/promised';
import { showTime } from './support/showTime';

const START = [5, 48];

interface Case {
  readonly point: Position;
  readonly from: Position;
  readonly to: Position;
}

/** Points beside edges of up to `edge` metres, up to `away` metres from their starts. */
function cases(seed: number, count: number, { edge, away }: { edge: number; away: number }): Case[] {
  const draw = seeded(seed);
  return Array.from({ length: count }, () => {
    const from = [START[0] + draw(), START[1] + draw()];
    const to = direct(from, draw() * 360, edge * (0.1 + 0.9 * draw())).position;
    return { point: direct(from, draw() * 360, away * draw()).position, from, to };
  });
}

/** Largest error in metres of a distance, as a short text. */
function worst(list: readonly Case[], distance: (one: Case) => number, exact: (one: Case) => number): string {
  const error = list.reduce((most, one) => Math.max(most, Math.abs(distance(one) - exact(one))), 0);
  return `${error.toExponential(0)} m`;
}

const toSegment = ({ point, from, to }: Case) => pointToSegment(point, from, to).distance;
const byTurf = ({ point, from, to }: Case) =>
  nearestPointOnLine(lineString([from, to]), turfPoint(point), { units: 'meters' }).properties.pointDistance;
const ruler = new CheapRuler(START[1] + 0.5, 'meters');
const byRuler = ({ point, from, to }: Case) =>
  ruler.pointToSegmentDistance(point as [number, number], from as [number, number], to as [number, number]);
/** No foot at all: only how far both ends are, as a yardstick for the time. */
const bare = ({ point, from, to }: Case) =>
  WGS84.Inverse(point[1], point[0], from[1], from[0], Geodesic.DISTANCE).s12! +
  WGS84.Inverse(point[1], point[0], to[1], to[0], Geodesic.DISTANCE).s12!;
const brute = (reach: number) => (one: Case) =>
  bruteFoot(one.point, one.from, one.to, { low: -reach, high: reach, samples: 100 }).distance;

/** How far apart the two lines are where they are said to cross. */
const apart = ({ point, from, to }: Case) => {
  const found = intersection(point, from, START, to);
  if (!found) return 0;
  const [p, q] = [interpolate(point, from, found.alongFirst), interpolate(START, to, found.alongSecond)];
  return inverse(p, q).distance;
};

const sum = <T>(list: readonly T[], value: (one: T) => number) => list.reduce((total, one) => total + value(one), 0);

/** Feet on edges, crossings and lengths beside general-purpose libraries, each with its largest error. */
export const run: Bench = ({ smoke }) => {
  const rounds = smoke ? 1 : 15;
  const rows: ReturnType<Bench> = [];

  const line = wanderingLine(seeded(1), { start: START, count: 2001, step: 500 });
  const points = jittered(seeded(2), line, 1000).slice(0, smoke ? 50 : 400);
  const feet = new EdgeFeet(
    line.map(([lon]) => lon),
    line.map(([, lat]) => lat),
  );
  const short = cases(3, smoke ? 50 : 2000, { edge: 500, away: 1000 });
  const one = new EdgeFeet(
    short.flatMap(({ from, to }) => [from[0], to[0]]),
    short.flatMap(({ from, to }) => [from[1], to[1]]),
  );
  const fast = (item: Case, i: number) => {
    one.moveTo(item.point[0], item.point[1]);
    return one.measure(2 * i);
  };
  const far = cases(4, smoke ? 20 : 500, { edge: 5e6, away: 5e6 });
  const toGeodesic = ({ point, from, to }: Case) => pointToGeodesic(point, from, to).distance;
  const exactShort = new Map(short.slice(0, smoke ? 10 : 300).map((item) => [item, toSegment(item)]));
  const judged = [...exactShort.keys()];

  const times = medianTime(
    {
      many: () => {
        let total = 0;
        for (const [i, place] of points.entries()) {
          feet.moveTo(place[0], place[1]);
          const first = Math.max(0, Math.min(i - 8, 2000 - 16)); // edges about the point, within reach of the plane
          for (let edge = first; edge < first + 16; edge++) total += feet.measure(edge);
        }
        return total;
      },
      single: () => short.reduce((total, item, i) => total + fast(item, i), 0),
      exact: () => sum(short, toSegment),
      endless: () => sum(far, toGeodesic),
      bare: () => sum(short, bare),
      bareFar: () => sum(far, bare),
      ruler: () => sum(short, byRuler),
      turf: () => sum(short.slice(0, 200), byTurf),
      crossing: () => sum(far, ({ point, from, to }) => intersection(point, from, START, to)?.alongFirst ?? 0),
    },
    rounds,
  );
  const each = (milliseconds: number, count: number) => milliseconds / count;
  const turfTime = showTime(each(times.turf, Math.min(200, short.length)));
  const peers = [
    { name: 'cheap-ruler', time: showTime(each(times.ruler, short.length)), error: worst(judged, byRuler, toSegment) },
    { name: 'Turf nearestPointOnLine', time: turfTime, error: worst(judged, byTurf, toSegment) },
    { name: 'geographiclib, two distances and no foot', time: showTime(each(times.bare, short.length)) },
  ];
  const index = new Map(short.map((item, i) => [item, i]));
  const fastError = worst(judged, (item) => fast(item, index.get(item)!), toSegment);
  const [many, single] = [each(times.many, points.length * 16), each(times.single, short.length)];
  const [exact, endless] = [each(times.exact, short.length), each(times.endless, far.length)];
  rows.push(
    {
      what: 'fast foot, one point on 16 edges, each',
      ...promised(many, 1e-4),
      error: fastError,
      peers,
    },
    { what: 'fast foot, a new point for each edge', ours: showTime(single), error: fastError, peers },
    {
      what: 'exact foot on edges to 500 m, points to 1 km',
      // two distances by geographiclib took 2 µs on the machine on which the promise was made
      ...promised(exact, 6e-3, { here: each(times.bare, short.length), there: 2e-3 }),
      error: worst(judged.slice(0, 40), toGeodesic, brute(1500)),
      peers,
    },
    {
      what: 'exact foot on geodesics and at distances to 5 000 km',
      ...promised(endless, 8e-3),
      error: worst(far.slice(0, 10), toGeodesic, brute(8e6)),
      peers: [{ name: 'geographiclib, two distances and no foot', time: showTime(each(times.bareFar, far.length)) }],
    },
    {
      what: 'crossing of two geodesics to 5 000 km',
      ours: showTime(each(times.crossing, far.length)),
      error: worst(far.slice(0, 50), apart, () => 0),
      peers: [{ name: 'geographiclib, two distances and no foot', time: showTime(each(times.bareFar, far.length)) }],
    },
  );

  const long = wanderingLine(seeded(5), { start: START, count: smoke ? 200 : 10_000, step: 50 });
  const feature = lineString(long);
  const exactLength = lineLength(long);
  const lengths = medianTime(
    {
      ours: () => lineLength(long),
      bare: () => {
        let total = 0;
        for (let i = 1; i < long.length; i++) {
          total += WGS84.Inverse(long[i - 1][1], long[i - 1][0], long[i][1], long[i][0], Geodesic.DISTANCE).s12!;
        }
        return total;
      },
      turf: () => turfLength(feature, { units: 'meters' }),
      ruler: () => ruler.lineDistance(long as [number, number][]),
    },
    smoke ? 1 : 31,
  );
  const off = (value: number) => `${Math.abs(value - exactLength).toExponential(0)} m`;
  rows.push({
    what: `lineLength, ${long.length} positions`,
    ours: showTime(lengths.ours),
    promise: '≤ 1.1 × bare geographiclib',
    held: lengths.ours <= 1.1 * lengths.bare,
    error: '15 nm an edge',
    peers: [
      { name: 'geographiclib, bare calls', time: showTime(lengths.bare) },
      { name: 'Turf', time: showTime(lengths.turf), error: off(turfLength(feature, { units: 'meters' })) },
      {
        name: 'cheap-ruler',
        time: showTime(lengths.ruler),
        error: off(ruler.lineDistance(long as [number, number][])),
      },
    ],
  });
  return rows;
};
