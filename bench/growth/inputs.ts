import { type Recording, type Route, recordingFrom, routeBuilder, routeFromLine } from 'datumline';
import type { Position } from 'geojson';
import { normals } from '../../test/support/correlatedOffsets';
import { seeded } from '../../test/support/randomLine';

const EAST = 55_800;
const NORTH = 111_400;
const BEGUN = Date.UTC(2031, 4, 6, 12);
export const START: Position = [5.1234567, 60.1234567];

/** A position so many metres east and north of the start. */
export const at = (east: number, north: number): Position => [START[0] + east / EAST, START[1] + north / NORTH];
const line = (n: number, place: (i: number) => Position): Position[] => Array.from({ length: n }, (_, i) => place(i));

/** Lines by the name under which they stand in the table: so many vertices, some metres between two. */
export const shapes = {
  wandering: (n) => {
    const random = seeded(9);
    let [azimuth, east, north] = [1, 0, 0];
    return line(n, () => {
      azimuth += (random() - 0.5) / 2;
      [east, north] = [east + 5 * Math.sin(azimuth), north + 5 * Math.cos(azimuth)];
      return at(east, north);
    });
  },
  zigzag: (n) => line(n, (i) => at(i, 50 * (i % 2))),
  spiral: (n) =>
    line(n, (i) => {
      const turned = Math.sqrt(1.2 * Math.PI * (i + 1));
      const radius = (10 / 2 / Math.PI) * turned;
      return at(radius * Math.sin(turned), radius * Math.cos(turned));
    }),
  'back and forth': (n) => line(n, (i) => at(5 * Math.abs((i % 100) - 50), 0)),
  'standing still': (n) => {
    const normal = normals(1);
    return line(n, () => at(3 * normal(), 3 * normal()));
  },
  'all at one place': (n) => line(n, () => START),
} as const satisfies Record<string, (n: number) => Position[]>;
export type Shape = keyof typeof shapes;
export const shapeNames = Object.keys(shapes) as Shape[];
export const kindOf = (shape: Shape) => (shape === 'wandering' ? 'easy' : 'hostile');

/** The same line as a receiver would tell it: errors of 3 m that are forgotten in half a minute. */
export function told(positions: readonly Position[], seed = 2): Position[] {
  const normal = normals(seed);
  const kept = Math.exp(-1 / 30);
  const fresh = 3 * Math.sqrt(1 - kept ** 2);
  let [east, north] = [3 * normal(), 3 * normal()];
  return positions.map(([lon, lat]) => {
    [east, north] = [kept * east + fresh * normal(), kept * north + fresh * normal()];
    return [lon + east / EAST, lat + north / NORTH];
  });
}

/** A fix a second. */
export function recordingOf(positions: readonly Position[], name = 'A'): Recording {
  return recordingFrom({
    lon: positions.map(([lon]) => lon),
    lat: positions.map(([, lat]) => lat),
    time: positions.map((_, i) => BEGUN + 1000 * i),
    name,
  });
}

/** A route of that shape, and a receiver carried along it from vertex to vertex. */
export function ride(shape: Shape, n: number): [Route, Recording] {
  const positions = shapes[shape](n);
  return [routeFromLine(positions, { lateral95: 1 }), recordingOf(told(positions))];
}

/** Laps of four legs of so many metres. */
export function squareLaps(count: number, leg: number, sections: 'sections' | 'none' = 'none'): Route {
  const builder = routeBuilder({ lateral95: 1, halfWidth: 5 }).start(START);
  builder.laps(count, (lap) => {
    for (const azimuth of [0, 90, 180, 270]) {
      if (sections === 'sections') lap.section(`${azimuth}`);
      lap.lineBy({ azimuth, distance: leg });
    }
  });
  return builder.build();
}

/** A receiver carried along a route at 3 m/s. */
export function along(route: Route, name = 'A', seed = 2): Recording {
  const positions: Position[] = [];
  let vertex = 0;
  for (let s = 0; s <= route.length; s += 3) {
    while (vertex < route.lon.length - 2 && route.alongTrack[vertex + 1] <= s) vertex++;
    const length = route.alongTrack[vertex + 1] - route.alongTrack[vertex];
    const share = length > 0 ? (s - route.alongTrack[vertex]) / length : 0;
    const between = (column: Float64Array) => column[vertex] + share * (column[vertex + 1] - column[vertex]);
    positions.push([between(route.lon), between(route.lat)]);
  }
  return recordingOf(told(positions, seed), name);
}
