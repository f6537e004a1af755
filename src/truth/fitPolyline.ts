import { thinLine } from '../geodesy';
import type { Station } from './stationsAlong';

const ROUNDS = 4;

/** Of the places of a leg so large a share at each end, and at most so many, say nothing of it: corners are rounded off there. */
const ROUNDED = 0.2;
const MOST_ROUNDED = 10;
/** Legs of fewer places have no direction of their own. */
const LEAST_PLACES = 12;
/** Sine of the least turn, 20°, at which where two legs meet is well known. */
const LEAST_TURN = 0.34;

/**
 * The line of few vertices nearest to places in their order, by least squares: its corners are first those that a line thinned
 * within `tolerance` keeps, of these then the ones that the
 * fitted line can't do without; moved to where the squares are least, the places between two shared out evenly.
 *
 * @remarks the vertices' hat functions give a tridiagonal system on each axis, solved by elimination (Thomas)
 */
export function fitPolyline(places: readonly Pick<Station, 'x' | 'y'>[], tolerance: number): [x: number, y: number][] {
  let knots = thinLine(
    places.map(({ x }) => x),
    places.map(({ y }) => y),
    tolerance,
  );
  let vertices = solve(places, knots);
  // what was noise in the places stands out no more in the vertices fitted to many of them
  for (let fewer = true; fewer; ) {
    const kept = thinLine(
      vertices.map(([x]) => x),
      vertices.map(([, y]) => y),
      tolerance,
    );
    fewer = kept.length < knots.length;
    knots = kept.map((v) => knots[v]);
    vertices = solve(places, knots);
  }
  for (let round = 0; round < ROUNDS; round++) {
    // each corner at the place nearest to where it was moved to
    const moved = knots.map((knot, v) => {
      if (v === 0 || v === knots.length - 1) return knot;
      let best = knot;
      let least = Infinity;
      for (let i = knots[v - 1] + 1; i < knots[v + 1]; i++) {
        const square = (places[i].x - vertices[v][0]) ** 2 + (places[i].y - vertices[v][1]) ** 2;
        if (square >= least) continue;
        least = square;
        best = i;
      }
      return best;
    });
    // two that would change places stay
    knots = moved.map((knot, v) =>
      v > 0 && v < knots.length - 1 && (knot <= moved[v - 1] || knot >= moved[v + 1]) ? knots[v] : knot,
    );
    if (knots.some((knot, v) => v > 0 && knot <= knots[v - 1])) break;
    vertices = solve(places, knots);
  }
  return sharpened(places, knots, vertices);
}

function solve(places: readonly Pick<Station, 'x' | 'y'>[], knots: readonly number[]): [number, number][] {
  const n = knots.length;
  const diagonal = new Float64Array(n);
  const beside = new Float64Array(n);
  const [x, y] = [new Float64Array(n), new Float64Array(n)];
  for (let v = 0; v + 1 < n; v++) {
    const [a, b] = [knots[v], knots[v + 1]];
    for (let i = v === 0 ? a : a + 1; i <= b; i++) {
      const u = (i - a) / (b - a);
      diagonal[v] += (1 - u) ** 2;
      diagonal[v + 1] += u * u;
      beside[v] += u * (1 - u);
      x[v] += (1 - u) * places[i].x;
      y[v] += (1 - u) * places[i].y;
      x[v + 1] += u * places[i].x;
      y[v + 1] += u * places[i].y;
    }
  }
  for (let v = 1; v < n; v++) {
    const factor = beside[v - 1] / diagonal[v - 1];
    diagonal[v] -= factor * beside[v - 1];
    x[v] -= factor * x[v - 1];
    y[v] -= factor * y[v - 1];
  }
  const vertices: [number, number][] = Array.from({ length: n }, () => [0, 0]);
  for (let v = n - 1; v >= 0; v--) {
    const [nextX, nextY] = vertices[v + 1] ?? [0, 0];
    vertices[v] = [(x[v] - beside[v] * nextX) / diagonal[v], (y[v] - beside[v] * nextY) / diagonal[v]];
  }
  return vertices;
}

/** A leg's own line: through the mean of its places, in their direction. */
interface LegLine {
  readonly x: number;
  readonly y: number;
  readonly dx: number;
  readonly dy: number;
}

/** Corners moved to where the lines of their two legs meet: the middle of recordings that are a little out of step cuts them. */
function sharpened(
  places: readonly Pick<Station, 'x' | 'y'>[],
  knots: readonly number[],
  vertices: readonly [number, number][],
): [number, number][] {
  const lines = knots.slice(1).map((to, v) => {
    const trim = Math.min(MOST_ROUNDED, Math.floor(ROUNDED * (to - knots[v])));
    return legLine(places.slice(knots[v] + trim, to - trim + 1));
  });
  return vertices.map(([x, y], v) => {
    const [a, b] = [lines[v - 1], lines[v]];
    if (!a || !b) return [x, y];
    const sine = a.dx * b.dy - a.dy * b.dx;
    if (Math.abs(sine) < LEAST_TURN) return [x, y];
    const along = ((b.x - a.x) * b.dy - (b.y - a.y) * b.dx) / sine;
    const [cornerX, cornerY] = [a.x + along * a.dx, a.y + along * a.dy];
    // no further than the legs are long
    const least = Math.min(
      Math.hypot(x - vertices[v - 1][0], y - vertices[v - 1][1]),
      Math.hypot(x - vertices[v + 1][0], y - vertices[v + 1][1]),
    );
    return Math.hypot(cornerX - x, cornerY - y) < least / 2 ? [cornerX, cornerY] : [x, y];
  });
}

function legLine(places: readonly Pick<Station, 'x' | 'y'>[]): LegLine | undefined {
  const n = places.length;
  if (n < LEAST_PLACES) return undefined;
  let [x, y, xx, xy, yy] = [0, 0, 0, 0, 0];
  for (const place of places) {
    x += place.x / n;
    y += place.y / n;
  }
  for (const place of places) {
    xx += (place.x - x) ** 2;
    xy += (place.x - x) * (place.y - y);
    yy += (place.y - y) ** 2;
  }
  const azimuth = Math.atan2(2 * xy, xx - yy) / 2;
  return { x, y, dx: Math.cos(azimuth), dy: Math.sin(azimuth) };
}
