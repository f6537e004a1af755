import { nearestPointOnLine } from '@turf/turf';
import Flatbush from 'flatbush';
import type { Position } from 'geojson';
import RBush from 'rbush';
import knn from 'rbush-knn';
import { direct, inverse, pointToSegment } from '../src/subpaths/geodesy';
import { type Route, routeFromLine } from '../src/subpaths/route';
import { indexRoute } from '../src/subpaths/snap';
import { seeded } from '../test/support/randomLine';
import { simulateRun } from '../test/support/simulateRun';
import type { Bench, BenchRow } from './support/Bench';
import { medianTime } from './support/medianTime';
import { promised } from './support/promised';
import { showTime } from './support/showTime';

/** Metres from vertex to vertex. */
const SPACING = 4.999;

/** A route that wanders over open land at 48° N. */
function wanderingRoute(random: () => number, segments: number): Route {
  const line: Position[] = [[11, 48]];
  for (let azimuth = 0; line.length <= segments; azimuth += (random() - 0.5) * 40) {
    line.push(direct(line[line.length - 1], azimuth, SPACING).position);
  }
  return routeFromLine(line);
}

/**
 * The nearest place on routes of 5 m segments: for the fixes of a recording in order, one a second with 5 m correlated
 * noise, and for positions at random along the whole route; and the building of the index.
 */
export const run: Bench = ({ smoke }) => {
  const rows: BenchRow[] = [];
  // segments, most milliseconds, and rbush-knn on the machine on which the promise was made
  for (const [segments, limit, boxesThen] of smoke
    ? ([[200, 1e-3, 1.2e-3]] as const)
    : ([
        [2_000, 1e-3, 1.2e-3],
        [200_000, 1.5e-3, 1.7e-3],
      ] as const)) {
    const random = seeded(48);
    const route = wanderingRoute(random, segments);
    const { lon, lat } = route;
    const line = Array.from(lon, (x, i) => [x, lat[i]]);
    const [{ recording }] = simulateRun(route, { seed: 48, to: Math.min(route.length, 30_000) });
    const fixes = Array.from(recording.lon, (x, i) => [x, recording.lat[i]]);
    const inOrder = smoke ? fixes : Array.from({ length: 20_000 }, (_, i) => fixes[i % fixes.length]);
    const atRandom = Array.from({ length: smoke ? 50 : 10_000 }, () => {
      const vertex = Math.floor(random() * segments);
      return [lon[vertex] + (random() - 0.5) * 2e-4, lat[vertex] + (random() - 0.5) * 1.4e-4];
    });
    const index = indexRoute(route);
    const boxes = Array.from({ length: segments }, (_, i) => ({
      minX: Math.min(lon[i], lon[i + 1]),
      maxX: Math.max(lon[i], lon[i + 1]),
      minY: Math.min(lat[i], lat[i + 1]),
      maxY: Math.max(lat[i], lat[i + 1]),
      i,
    }));
    const rbush = new RBush<(typeof boxes)[0]>().load(boxes);
    const flatbush = new Flatbush(segments);
    for (const { minX, minY, maxX, maxY } of boxes) flatbush.add(minX, minY, maxX, maxY);
    flatbush.finish();
    const lineString = { type: 'LineString' as const, coordinates: line };
    const named = segments.toLocaleString('en').replace(',', ' ');
    for (const [how, queries] of [
      ['a recording in order', inOrder],
      ['places at random', atRandom],
    ] as const) {
      const few = queries.slice(0, segments > 10_000 ? 2 : 10);
      const each = (among: Position[], ask: (query: Position) => number) => () =>
        among.reduce((sum, query) => sum + ask(query), 0);
      const times = medianTime(
        {
          ours: each(queries, (query) => index.nearest(query)!.segment),
          knn: each(queries, ([x, y]) => knn(rbush, x, y, 1)[0].i),
          flatbush: each(queries, ([x, y]) => flatbush.neighbors(x, y, 1)[0]),
          turf: each(few, (query) => nearestPointOnLine(lineString, query).properties.index),
        },
        smoke ? 1 : 7,
      );
      const rbushKnn = times.knn / queries.length;
      // the exact foot, and how often the nearest box is not the nearest segment
      let error = 0;
      let wrong = 0;
      const checked = queries.slice(0, smoke ? 5 : 500);
      for (const query of checked) {
        const { segment, distance } = index.nearest(query)!;
        const exact = pointToSegment(query, line[segment], line[segment + 1]).distance;
        error = Math.max(error, Math.abs(exact - distance));
        const box = knn(rbush, query[0], query[1], 1)[0].i;
        if (pointToSegment(query, line[box], line[box + 1]).distance > exact + 1e-6) wrong++;
      }
      const turfErrors = few.map((query) => {
        const { coordinates } = nearestPointOnLine(lineString, query).geometry;
        return Math.abs(inverse(query, coordinates).distance - index.nearest(query)!.distance);
      });
      const boxesOnly = `only boxes: wrong segment in ${((100 * wrong) / checked.length).toFixed(0)} %`;
      const ours = times.ours / queries.length;
      rows.push({
        what: `nearest, ${how}, ${named} segments`,
        ...(queries === inOrder
          ? promised(ours, limit, { here: rbushKnn, there: boxesThen })
          : promised(ours, segments > 10_000 ? 2.2e-3 : 1e-3)),
        error: `${error.toExponential(0)} m from the exact foot`,
        peers: [
          {
            name: 'Turf nearestPointOnLine',
            time: showTime(times.turf / few.length),
            error: `${Math.max(...turfErrors).toExponential(0)} m`,
          },
          { name: 'rbush-knn', time: showTime(rbushKnn), error: boxesOnly },
          { name: 'flatbush', time: showTime(times.flatbush / queries.length), error: boxesOnly },
        ],
      });
    }
    const { build } = medianTime({ build: () => indexRoute(route) }, smoke ? 1 : 7);
    rows.push({
      what: `index of ${named} segments, each`,
      ...promised(build / segments, segments > 10_000 ? 2e-4 : 1e-3),
    });
  }
  return rows;
};
