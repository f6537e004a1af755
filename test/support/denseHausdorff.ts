import type { Position } from 'geojson';
import { WGS84 } from '../../src/geodesy/ellipsoid';

/** Exact distance from a point to the geodesic edge from `a` to `b`: golden section over exact distances. */
export function exactToEdge(p: Position, a: Position, b: Position): number {
  const line = WGS84.InverseLine(a[1], a[0], b[1], b[0]);
  const at = (s: number) => {
    const { lat2, lon2 } = line.Position(s);
    return WGS84.Inverse(p[1], p[0], lat2!, lon2!).s12!;
  };
  const golden = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [0, line.s13];
  let [left, right] = [high - golden * (high - low), low + golden * (high - low)];
  let [atLeft, atRight] = [at(left), at(right)];
  for (let round = 0; round < 60 && high - low > 1e-7; round++) {
    if (atLeft <= atRight) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - golden * (high - low);
      atLeft = at(left);
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + golden * (high - low);
      atRight = at(right);
    }
  }
  return Math.min(at(0), at(line.s13), atLeft, atRight);
}

/** Exact distance from a point to the line through `line`. */
export function exactToLine(p: Position, line: readonly Position[]): number {
  if (line.length === 1) return WGS84.Inverse(p[1], p[0], line[0][1], line[0][0]).s12!;
  let least = Infinity;
  for (let j = 1; j < line.length; j++) least = Math.min(least, exactToEdge(p, line[j - 1], line[j]));
  return least;
}

/**
 * Judge of the directed Hausdorff distance: every edge of `a` sampled evenly, each local maximum of the samples closed in
 * on by ternary section. Slow and plain.
 */
export function denseHausdorff(a: readonly Position[], b: readonly Position[], samples = 16): number {
  let most = exactToLine(a[0], b);
  for (let i = 1; i < a.length; i++) {
    const line = WGS84.InverseLine(a[i - 1][1], a[i - 1][0], a[i][1], a[i][0]);
    const at = (s: number) => {
      const { lat2, lon2 } = line.Position(s);
      return exactToLine([lon2!, lat2!], b);
    };
    const step = line.s13 / samples;
    const values = Array.from({ length: samples + 1 }, (_, k) => at(k * step));
    most = Math.max(most, ...values);
    for (let k = 0; k <= samples; k++) {
      const [before, after] = [values[k - 1] ?? -Infinity, values[k + 1] ?? -Infinity];
      // a hill between the samples rises at most half a step over its neighbours
      if (values[k] < before || values[k] < after || values[k] + step < most) continue;
      let [low, high] = [Math.max(0, k - 1) * step, Math.min(samples, k + 1) * step];
      for (let round = 0; round < 60 && high - low > 1e-7; round++) {
        const [left, right] = [low + (high - low) / 3, high - (high - low) / 3];
        if (at(left) < at(right)) low = left;
        else high = right;
      }
      most = Math.max(most, at((low + high) / 2));
    }
  }
  return most;
}
