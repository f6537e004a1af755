import { ECCENTRICITY2, RADIAN } from '../geodesy';
import { SegmentTree } from '../index';
import type { Route } from '../model';
import type { RepeatedStretch } from './RepeatedStretch';

/** Cosine of 30°: within it two directions are the same way, or opposite ones. */
const SAME_WAY = Math.cos(Math.PI / 6);

/** Times `maxDistance`: about as long are two lines that cross at 30° within reach of each other. Shorter is a crossing. */
const SHORTEST = 4;

/** Metres, above the rounding of along-track. */
const CLEAR = 1e-6;

/** Where a route meets itself. */
export interface SelfContacts {
  readonly repeats: RepeatedStretch[];
  /** Along-track of the first and of the second passage. */
  readonly crossings: { readonly first: number; readonly second: number }[];
}

/** A repetition while vertices still add to it. */
interface Chain {
  readonly direction: 'same' | 'opposite';
  /** Along-track where it begins and ends so far; of the second passage in the travel of the first. */
  readonly first: { from: number; to: number };
  readonly second: { from: number; to: number };
  /** Vertex that added last, and how far away the second passage was there. */
  vertex: number;
  distance: number;
}

type Columns = Pick<Route, 'lon' | 'lat' | 'alongTrack'>;

/** Finds where a route crosses itself, or runs along itself within so many metres. */
export function selfContacts({ lon, lat, alongTrack }: Columns, maxDistance: number): SelfContacts {
  const last = lon.length - 2;
  const { east, north } = directionsOf(lon, lat);
  const longest = alongTrack.reduce((best, at, i) => (i === 0 ? best : Math.max(best, at - alongTrack[i - 1])), 0);
  // Where two edges cross, one end of each lies no further from the other edge than half its length.
  const reach = Math.max(maxDistance, longest / 2 + CLEAR);
  const tree = new SegmentTree(lon, lat);
  const repeats: RepeatedStretch[] = [];
  const crossings = new Map<string, { first: number; second: number }>();
  let chains: Chain[] = [];

  const cosine = (a: number, b: number) => east[a] * east[b] + north[a] * north[b];
  const cross = (a: number, b: number) => {
    if (a < 0 || b <= a + 1 || Math.abs(cosine(a, b)) > SAME_WAY) return;
    const fractions = crossingOf(lon, lat, a, b);
    if (fractions === undefined) return;
    const along = (edge: number, fraction: number) =>
      alongTrack[edge] + fraction * (alongTrack[edge + 1] - alongTrack[edge]);
    crossings.set(`${a} ${b}`, { first: along(a, fractions[0]), second: along(b, fractions[1]) });
  };
  const meet = (i: number, direction: 'same' | 'opposite', at: number, distance: number) => {
    const here = alongTrack[i];
    const chain = chains.find((candidate) => {
      const moved = here - candidate.first.to;
      const expected = candidate.second.to + (direction === 'same' ? moved : -moved);
      return candidate.direction === direction && Math.abs(expected - at) <= longest + 2 * maxDistance;
    });
    if (chain === undefined) {
      chains.push({ direction, first: { from: here, to: here }, second: { from: at, to: at }, vertex: i, distance });
    } else if (chain.vertex !== i || distance < chain.distance) {
      if (chain.first.from === here) chain.second.from = at;
      chain.first.to = here;
      chain.second.to = at;
      chain.vertex = i;
      chain.distance = distance;
    }
  };
  const close = ({ direction, first, second }: Chain) => {
    const { from, to } = first;
    if (to - from < SHORTEST * maxDistance) return;
    if (direction === 'same') {
      repeats.push({ first, second, direction });
      return;
    }
    const { from: end, to: begin } = second;
    // Out and back on the same line: the vertex at the turn belongs to both.
    const meeting = begin - to <= 2 * longest + CLEAR ? (begin + to) / 2 : undefined;
    repeats.push({ first: { from, to: meeting ?? to }, second: { from: meeting ?? begin, to: end }, direction });
  };

  for (let i = 0; i <= last + 1; i++) {
    const edge = Math.min(i, last);
    for (const j of tree.within(lon[i], lat[i], reach)) {
      if (j <= edge) continue;
      cross(edge, j);
      cross(i - 1, j);
      const way = cosine(edge, j);
      if (Math.abs(way) <= SAME_WAY) continue;
      const distance = tree.measure(j);
      const at = alongTrack[j] + tree.fraction * (alongTrack[j + 1] - alongTrack[j]);
      if (distance > maxDistance || (way > 0 && at - alongTrack[i] < SHORTEST * maxDistance)) continue;
      meet(i, way > 0 ? 'same' : 'opposite', at, distance);
    }
    const open: Chain[] = [];
    for (const chain of chains) {
      // A lap ends where the next begins; the same vertex starts the pair of the next two laps.
      const caughtUp = chain.direction === 'same' && chain.first.to >= chain.second.from - CLEAR;
      if (caughtUp || chain.vertex !== i) close(chain);
      if (chain.vertex !== i) continue;
      const { first, second } = chain;
      const again = ({ to }: Chain['first']) => ({ from: to, to });
      open.push(caughtUp ? { ...chain, first: again(first), second: again(second) } : chain);
    }
    chains = open;
  }
  for (const chain of chains) close(chain);
  repeats.sort((a, b) => a.first.from - b.first.from || a.second.from - b.second.from);
  return { repeats, crossings: [...crossings.values()].sort((a, b) => a.first - b.first) };
}

/** Unit vectors of the edges, east and north. */
function directionsOf(lon: Float64Array, lat: Float64Array): { east: Float64Array; north: Float64Array } {
  const east = new Float64Array(lon.length - 1);
  const north = new Float64Array(lon.length - 1);
  for (let i = 0; i + 1 < lon.length; i++) {
    const sin = Math.sin(((lat[i] + lat[i + 1]) / 2) * RADIAN);
    const x = (lon[i + 1] - lon[i]) * Math.sqrt(1 - sin * sin);
    const y = ((lat[i + 1] - lat[i]) * (1 - ECCENTRICITY2)) / (1 - ECCENTRICITY2 * sin * sin);
    const size = Math.hypot(x, y) || 1;
    east[i] = x / size;
    north[i] = y / size;
  }
  return { east, north };
}

/** Where on two edges they cross, as fractions in [0, 1): a vertex belongs to the edge it starts. Straight in degrees. */
function crossingOf(lon: Float64Array, lat: Float64Array, a: number, b: number): [number, number] | undefined {
  const shift = 360 * Math.round((lon[b] - lon[a]) / 360);
  const [ax, ay] = [lon[a + 1] - lon[a], lat[a + 1] - lat[a]];
  const [bx, by] = [lon[b + 1] - lon[b], lat[b + 1] - lat[b]];
  const [x, y] = [lon[b] - shift - lon[a], lat[b] - lat[a]];
  const across = ax * by - ay * bx;
  const t = (x * by - y * bx) / across;
  const u = (x * ay - y * ax) / across;
  return t >= 0 && t < 1 && u >= 0 && u < 1 ? [t, u] : undefined;
}
