import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { frechetDistance } from 'curve-matcher';
import {
  areaBetween,
  bufferShare,
  bufferWidth,
  discreteFrechet,
  frechet,
  hausdorff,
  type LineColumns,
  withinFrechet,
} from 'datumline/metrics';
import { routeFromLine } from 'datumline/route';
import DiscreteHausdorffDistance from 'jsts/org/locationtech/jts/algorithm/distance/DiscreteHausdorffDistance.js';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import BufferOp from 'jsts/org/locationtech/jts/operation/buffer/BufferOp.js';
import OverlayOp from 'jsts/org/locationtech/jts/operation/overlay/OverlayOp.js';
import { feature } from 'topojson-client';
import { onEquator } from '../test/support/onEquator';
import { seeded } from '../test/support/randomLine';
import type { Bench, BenchRow } from './support/Bench';
import { bytesOf } from './support/bytesOf';
import { medianTime } from './support/medianTime';
import { promised, type Yardstick } from './support/promised';
import { showTime } from './support/showTime';

interface Pair {
  readonly route: LineColumns;
  readonly recording: LineColumns;
}

// Degrees of a metre at 48° north: only shapes matter here.
const [EAST, NORTH] = [1 / 74_600, 1 / 111_200];

/** A slowly turning route of 5 m edges, and a recording of it with an error of 5 m that persists for 30 fixes. */
export function pairOf(count: number): Pair {
  const random = seeded(1);
  const normal = () => Array.from({ length: 12 }, random).reduce((sum, value) => sum + value, -6);
  const keep = Math.exp(-1 / 30);
  const columns = Array.from({ length: 4 }, () => new Float64Array(count));
  let [azimuth, x, y, errorX, errorY] = [0.7, 0, 0, 0, 0];
  for (let i = 0; i < count; i++) {
    azimuth += normal() * 0.05;
    x += 5 * Math.sin(azimuth);
    y += 5 * Math.cos(azimuth);
    errorX = keep * errorX + 5 * Math.sqrt(1 - keep * keep) * normal();
    errorY = keep * errorY + 5 * Math.sqrt(1 - keep * keep) * normal();
    columns[0][i] = 11 + x * EAST;
    columns[1][i] = 48 + y * NORTH;
    columns[2][i] = 11 + (x + errorX) * EAST;
    columns[3][i] = 48 + (y + errorY) * NORTH;
  }
  return { route: { lon: columns[0], lat: columns[1] }, recording: { lon: columns[2], lat: columns[3] } };
}

/** The line with a walk back over so many edges, and forth again, at each of some vertices. */
export function withBacktracks({ lon, lat }: LineColumns, at: readonly number[], edges: number): LineColumns {
  const order: number[] = [];
  for (let i = 0; i < lon.length; i++) {
    order.push(i);
    if (!at.includes(i)) continue;
    for (let k = 1; k <= edges; k++) order.push(i - k);
    for (let k = edges - 1; k >= 0; k--) order.push(i - k);
  }
  return { lon: Float64Array.from(order, (i) => lon[i]), lat: Float64Array.from(order, (i) => lat[i]) };
}

const planeOf = ({ lon, lat }: LineColumns) =>
  Array.from(lon, (longitude, i) => ({ x: (longitude - 11) / EAST, y: (lat[i] - 48) / NORTH }));

/** The textbook table, one row kept, in a plane: what a peer without pruning does at best. */
function plainTable(a: readonly { x: number; y: number }[], b: readonly { x: number; y: number }[]): number {
  const row = new Float64Array(b.length).fill(Infinity);
  for (const [i, p] of a.entries()) {
    let [left, diagonal] = i === 0 ? [-Infinity, -Infinity] : [Infinity, Infinity];
    for (let j = 0; j < b.length; j++) {
      const above = row[j];
      const before = Math.min(left, above);
      const least = Math.min(before, diagonal);
      const square = (p.x - b[j].x) ** 2 + (p.y - b[j].y) ** 2;
      left = Math.max(least, square);
      diagonal = above;
      row[j] = left;
    }
  }
  return Math.sqrt(row[b.length - 1]);
}

function lineString(points: readonly { x: number; y: number }[]) {
  return new GeometryFactory().createLineString(points.map(({ x, y }) => new Coordinate(x, y)));
}

// Width of the buffers in metres: about what holds 96 % of such a recording.
const WIDTH = 10;

/** The share by overlay of the line with a buffer polygon, 16 segments a quarter circle. */
function overlayShare(tested: readonly { x: number; y: number }[], reference: readonly { x: number; y: number }[]) {
  const line = lineString(tested);
  const buffer = BufferOp.bufferOp(lineString(reference), WIDTH, 16);
  return OverlayOp.intersection(line, buffer).getLength() / line.getLength();
}

/** So many fixes on a lap of 60 m radius, turning left, each 3 m to the right of it: a ring of known area. */
function lapOf(count: number) {
  const corners = 720;
  const route = routeFromLine(
    onEquator(
      Array.from({ length: corners + 1 }, (_, i) => {
        const angle = (2 * Math.PI * i) / corners;
        return [60 * Math.sin(angle), 60 - 60 * Math.cos(angle)];
      }),
    ),
  );
  const snapped = {
    alongTrack: Float64Array.from({ length: count }, (_, i) => (route.length * i) / (count - 1)),
    crossTrack: new Float64Array(count).fill(3),
  };
  return { route, snapped, ring: Math.PI * (63 ** 2 - 60 ** 2) };
}

/** The longest ring of a map of the continents. */
export function coast(): number[][] {
  const path = createRequire(import.meta.url).resolve('world-atlas/land-50m.json');
  const land = feature(JSON.parse(readFileSync(path, 'utf8')), 'land') as unknown as {
    features: { geometry: { coordinates: number[][][][] } }[];
  };
  const rings = land.features.flatMap(({ geometry }) => geometry.coordinates.flat());
  return rings.reduce((a, b) => (b.length > a.length ? b : a));
}

/** The measures of lines, on a recording of 10 000 and 100 000 fixes against its route. */
export const run: Bench = ({ smoke }) => {
  const small = smoke ? 500 : 10_000;
  const large = smoke ? 1000 : 100_000;
  const rounds = smoke ? 1 : 9;
  const { route, recording } = pairOf(small);
  const long = pairOf(large);
  const backtracks = withBacktracks(
    recording,
    [0.2, 0.5, 0.8].map((share) => Math.floor(small * share)),
    30,
  );
  const twice = withBacktracks(recording, [Math.floor(small / 2)], smoke ? 100 : 400);
  const plain = [planeOf(recording), planeOf(route)];
  const world = coast().slice(0, smoke ? 20 : undefined);
  const coarse = world.filter((_, i) => i % 5 === 0 || i === world.length - 1);
  const lap = lapOf(small);

  const time = medianTime(
    {
      hausdorff: () => hausdorff(recording, route).distance,
      discrete: () => discreteFrechet(recording, route),
      frechet: () => frechet(recording, route),
      within: () => (withinFrechet(recording, route, 25) ? 1 : 0),
      backtracks: () => frechet(backtracks, route),
      twice: () => frechet(twice, route),
      large: () => frechet(long.recording, long.route),
      largeHausdorff: () => hausdorff(long.recording, long.route).distance,
      largeDiscrete: () => discreteFrechet(long.recording, long.route),
      share: () => bufferShare(recording, route, WIDTH),
      width: () => bufferWidth(recording, route),
      area: () => areaBetween(lap.route, lap.snapped).area,
      coast: () => hausdorff(world, coarse).distance,
    },
    rounds,
  );
  const lines = plain.map(lineString);
  const peers = medianTime(
    {
      jsts: () => DiscreteHausdorffDistance.distance(lines[0], lines[1]),
      matcher: () => frechetDistance(plain[0], plain[1]),
      table: () => plainTable(plain[0], plain[1]),
      overlay: () => overlayShare(plain[0], plain[1]),
    },
    1,
  );
  const tableError = Math.abs(plainTable(plain[0], plain[1]) - discreteFrechet(recording, route));
  const perVertex = (call: () => unknown) => bytesOf(call) / (2 * large);

  const shareError = Math.abs(overlayShare(plain[0], plain[1]) - bufferShare(recording, route, WIDTH));
  const widthError = Math.abs(bufferShare(recording, route, bufferWidth(recording, route)) - 0.95);
  const areaError = Math.abs(areaBetween(lap.route, lap.snapped).area / lap.ring - 1);

  const count = (number: number) => number.toLocaleString('en').replace(',', ' ');
  const size = (number: number) => `${count(number)} × ${count(number)}`;
  // times of the peers on the machine on which the promises were made
  const jstsYardstick = { here: peers.jsts, there: 5160 };
  const tableYardstick = { here: peers.table, there: 261 };
  const row = (
    what: string,
    milliseconds: number,
    most: number,
    yardstick: Yardstick,
    more: Partial<BenchRow> = {},
  ): BenchRow => ({ what, ...promised(milliseconds, most, yardstick), ...more });
  const tablePeers = [
    { name: 'curve-matcher', time: showTime(peers.matcher) },
    { name: 'plain table in a plane', time: showTime(peers.table) },
  ];
  const memory = [
    ['hausdorff', () => hausdorff(long.recording, long.route)],
    ['discreteFrechet', () => discreteFrechet(long.recording, long.route)],
    ['frechet', () => frechet(long.recording, long.route)],
  ] as const;
  return [
    row(`hausdorff, ${size(small)}`, time.hausdorff, 15, jstsYardstick, {
      peers: [{ name: 'jsts, vertices only', time: showTime(peers.jsts) }],
    }),
    row(`discreteFrechet, ${size(small)}`, time.discrete, 10, tableYardstick, {
      peers: tablePeers,
      error: `${tableError.toPrecision(1)} m from the table, whose plane is that rough`,
    }),
    row(`frechet, ${size(small)}`, time.frechet, 10, tableYardstick, { peers: tablePeers }),
    { what: `withinFrechet, ${size(small)}`, ours: showTime(time.within) },
    row(`frechet, three backtracks of 150 m, ${size(small)}`, time.backtracks, 150, tableYardstick),
    row(`frechet, back over 2 km and forth again, ${size(small)}`, time.twice, 120, tableYardstick),
    row(`frechet, ${size(large)}`, time.large, 100, tableYardstick),
    { what: `hausdorff, ${size(large)}`, ours: showTime(time.largeHausdorff) },
    { what: `discreteFrechet, ${size(large)}`, ours: showTime(time.largeDiscrete) },
    {
      what: `hausdorff, longest coast of world-atlas, ${world.length} vertices cut every 1 km, against a fifth of them`,
      ...promised(time.coast, 60),
    },
    {
      what: `bufferShare, ${WIDTH} m, ${size(small)}`,
      ours: showTime(time.share),
      peers: [{ name: 'jsts, overlay with a buffer polygon', time: showTime(peers.overlay) }],
      error: `${shareError.toPrecision(1)} from the overlay, whose plane and polygon are that rough`,
    },
    {
      what: `bufferWidth, 95 %, ${size(small)}`,
      ours: showTime(time.width),
      peers: [{ name: 'our hausdorff', time: showTime(time.hausdorff) }],
      error: `${widthError.toPrecision(1)} of the share, by bufferShare`,
    },
    {
      what: `areaBetween, ${count(small)} fixes on a lap of 60 m radius`,
      ours: showTime(time.area),
      error: `${areaError.toPrecision(1)} of the ring, whose lap has 720 corners`,
    },
    ...memory.map(([name, call]): BenchRow => {
      const bytes = perVertex(call);
      return {
        what: `${name}, typed arrays constructed, ${size(large)}`,
        ours: `${Math.round(bytes)} bytes a vertex`,
        promise: '≤ 100 bytes',
        held: bytes <= 100,
      };
    }),
  ];
};
