import { nearestPointOnLine } from '@turf/turf';
import Flatbush from 'flatbush';
import RBush from 'rbush';
import knn from 'rbush-knn';
import { inverse, pointToSegment } from '../src/geodesy';
import { SegmentTree } from '../src/route/SegmentTree';
import { seeded, wanderingLine } from '../test/support/randomLine';
import type { Bench, BenchRow } from './support/Bench';
import { medianTime } from './support/medianTime';
import { promised } from './support/promised';
import { showTime } from './support/showTime';

/** Nearest place on lines of 5 m segments at 48° N for positions about 5 m off it, and the building of the index. */
export const run: Bench = ({ smoke }) => {
  const rows: BenchRow[] = [];
  // segments, most milliseconds, and rbush-knn on the machine on which the promise was made
  for (const [size, limit, boxesThen] of [
    [2_000, 1e-3, 1.2e-3],
    [200_000, 1.5e-3, 1.7e-3],
  ] as const) {
    const random = seeded(48);
    const line = wanderingLine(random, { start: [11, 48], count: (smoke ? 200 : size) + 1, step: 10, turn: 20 });
    const lon = Float64Array.from(line, (position) => position[0]);
    const lat = Float64Array.from(line, (position) => position[1]);
    const segments = line.length - 1;
    const queries = Array.from({ length: smoke ? 50 : 20_000 }, () => {
      const vertex = Math.floor(random() * segments);
      return [lon[vertex] + (random() - 0.5) * 2e-4, lat[vertex] + (random() - 0.5) * 1.4e-4];
    });
    const tree = new SegmentTree(lon, lat);
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
    const few = queries.slice(0, segments > 10_000 ? 2 : 20);
    const each =
      <T>(among: T[], ask: (query: T) => number) =>
      () =>
        among.reduce((sum, query) => sum + ask(query), 0);
    const times = medianTime(
      {
        ours: each(queries, ([x, y]) => tree.nearest(x, y)),
        turf: each(few, (query) => nearestPointOnLine(lineString, query).properties.index),
        knn: each(queries, ([x, y]) => knn(rbush, x, y, 1)[0].i),
        flatbush: each(queries, ([x, y]) => flatbush.neighbors(x, y, 1)[0]),
        build: () => new SegmentTree(lon, lat).size,
      },
      smoke ? 1 : 7,
    );
    // the exact foot, and how often the nearest box is not the nearest segment
    let error = 0;
    let wrong = 0;
    const checked = queries.slice(0, smoke ? 5 : 500);
    for (const [x, y] of checked) {
      const segment = tree.nearest(x, y);
      const exact = pointToSegment([x, y], line[segment], line[segment + 1]);
      error = Math.max(error, Math.abs(exact.distance - tree.distance));
      const box = knn(rbush, x, y, 1)[0].i;
      if (pointToSegment([x, y], line[box], line[box + 1]).distance > exact.distance + 1e-6) wrong++;
    }
    const turfError = Math.max(
      ...few.map((query) => {
        tree.nearest(query[0], query[1]);
        const { coordinates } = nearestPointOnLine(lineString, query).geometry;
        return Math.abs(inverse(query, coordinates).distance - tree.distance);
      }),
    );
    const ours = times.ours / queries.length;
    const boxesOnly = `only boxes: wrong segment in ${((100 * wrong) / checked.length).toFixed(0)} %`;
    rows.push(
      {
        what: `nearest, ${segments.toLocaleString('en').replace(',', ' ')} segments`,
        ...promised(ours, limit, { here: times.knn / queries.length, there: boxesThen }),
        error: `${error.toExponential(0)} m from the exact foot`,
        peers: [
          {
            name: 'Turf nearestPointOnLine',
            time: showTime(times.turf / few.length),
            error: `${turfError.toExponential(0)} m`,
          },
          { name: 'rbush-knn', time: showTime(times.knn / queries.length), error: boxesOnly },
          { name: 'flatbush', time: showTime(times.flatbush / queries.length), error: boxesOnly },
        ],
      },
      {
        what: `index of ${segments.toLocaleString('en').replace(',', ' ')} segments, each`,
        ...promised(times.build / segments, 1e-3),
      },
    );
  }
  return rows;
};
