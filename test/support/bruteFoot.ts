import type { Position } from 'geojson';
import { Geodesic, WGS84 } from '../../src/geodesy/ellipsoid';

/** A line, and the distance from its place at so many metres to a point: all that the judge knows of geodesics. */
function distanceAlong(point: Position, from: Position, to: Position) {
  const line = WGS84.InverseLine(from[1], from[0], to[1], to[0]);
  const distance = (alongTrack: number) => {
    const { lat2, lon2 } = line.Position(alongTrack, Geodesic.LATITUDE | Geodesic.LONGITUDE);
    return WGS84.Inverse(lat2!, lon2!, point[1], point[0], Geodesic.DISTANCE).s12!;
  };
  return { length: line.s13, distance };
}

/** The place between `low` and `high` of the smallest value, by the golden section; flat minima are met to √ε only. */
function goldenSection(value: (x: number) => number, low: number, high: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [low, high];
  let [x, y] = [b - golden * (b - a), a + golden * (b - a)];
  let [atX, atY] = [value(x), value(y)];
  for (let i = 0; i < 80 && b - a > 1e-5; i++) {
    if (atX <= atY) {
      [b, y, atY] = [y, x, atX];
      x = b - golden * (b - a);
      atX = value(x);
    } else {
      [a, x, atX] = [x, y, atY];
      y = a + golden * (b - a);
      atY = value(y);
    }
  }
  return (a + b) / 2;
}

/** The place about `near` where the distance `reach` ahead and as far behind are the same, by bisection. */
function balanced(value: (x: number) => number, near: number, reach: number): number {
  let [low, high] = [near - reach / 2, near + reach / 2];
  for (let i = 0; i < 80 && high - low > 1e-10; i++) {
    const middle = (low + high) / 2;
    if (value(middle + reach) < value(middle - reach)) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * The nearest place between `low` and `high` metres along a geodesic, by trying: samples, then golden sections about the best
 * of them, then the balance of distances ahead and behind, which is sharp where a minimum is flat.
 */
export function bruteFoot(
  point: Position,
  from: Position,
  to: Position,
  { low, high, samples = 200 }: { low: number; high: number; samples?: number },
): { alongTrack: number; distance: number } {
  const { distance } = distanceAlong(point, from, to);
  const at = (k: number) => low + ((high - low) * k) / samples;
  let best = 0;
  for (let k = 1; k <= samples; k++) if (distance(at(k)) < distance(at(best))) best = k;
  const about = goldenSection(distance, at(Math.max(best - 1, 0)), at(Math.min(best + 1, samples)));
  for (const end of [low, high]) {
    if (Math.abs(about - end) < 1e-4) return { alongTrack: end, distance: distance(end) };
  }
  // Two reaches, extrapolated to none: an ellipsoid is not quite the same ahead and behind. At 100 km what is left of that
  // and the rounding of the distances are alike, some 3e-7 m.
  const reach = Math.min(Math.max(distance(about), 1), 1e5);
  const wide = balanced(distance, about, reach);
  const close = balanced(distance, about, reach / 2);
  const sharp = (4 * close - wide) / 3;
  // Opposite the point the distance has an edge: there the balance leads astray, and away from the smallest value.
  const astray = !(sharp >= low && sharp <= high) || distance(sharp) > distance(about) + 1e-8;
  const alongTrack = astray ? about : sharp;
  return { alongTrack, distance: distance(alongTrack) };
}
