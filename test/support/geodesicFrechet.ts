import type { Position } from 'geojson';
import { WGS84 } from '../../src/geodesy/ellipsoid';
import { crosses } from './planeFrechet';

/** An edge seen from a point, by exact distances: its length, where it is nearest, and the distance at any place. */
function seen(p: Position, a: Position, b: Position) {
  const line = WGS84.InverseLine(a[1], a[0], b[1], b[0]);
  const at = (s: number) => {
    const { lat2, lon2 } = line.Position(s);
    return WGS84.Inverse(p[1], p[0], lat2!, lon2!).s12!;
  };
  let [low, high] = [0, line.s13];
  for (let round = 0; round < 80 && high - low > 1e-7; round++) {
    const [left, right] = [low + (high - low) / 3, high - (high - low) / 3];
    if (at(left) < at(right)) high = right;
    else low = left;
  }
  return { length: line.s13, nearest: (low + high) / 2, at };
}

/**
 * Judge of the Fréchet distance on the ellipsoid: the whole free-space diagram of the given edges, uncut, its free parts
 * found by section over exact distances, bisected to 1e-7 m. Very slow. It takes the cells for convex, which on a globe
 * costs edges of 10 km that run side by side 10 km apart 3 mm: too little then.
 */
export function geodesicFrechet(a: readonly Position[], b: readonly Position[]): number {
  const left = a.map((p) => b.slice(1).map((q, j) => seen(p, b[j], q)));
  const below = b.map((p) => a.slice(1).map((q, i) => seen(p, a[i], q)));
  const part = ({ length, nearest, at }: ReturnType<typeof seen>, distance: number): [number, number] | undefined => {
    // the nearest place is known to a tenth of a micrometre along the edge
    const ends = [0, nearest, length].map((s) => [at(s), s] as const);
    const [least, from] = ends.reduce((x, y) => (y[0] < x[0] ? y : x));
    if (least > distance) return undefined;
    const edgeOf = (to: number) => {
      if (at(to) <= distance) return to;
      let [inside, outside] = [from, to];
      for (let round = 0; round < 60 && Math.abs(outside - inside) > 1e-8; round++) {
        const middle = (inside + outside) / 2;
        if (at(middle) <= distance) inside = middle;
        else outside = middle;
      }
      return inside;
    };
    return [edgeOf(0) / length, edgeOf(length) / length];
  };
  const within = (distance: number) =>
    crosses(
      a.length - 1,
      b.length - 1,
      (i, j) => part(left[i][j], distance),
      (i, j) => part(below[j][i], distance),
    );
  let [low, high] = [0, 1];
  while (!within(high)) high *= 2;
  while (high - low > 1e-7) {
    const middle = (low + high) / 2;
    if (within(middle)) high = middle;
    else low = middle;
  }
  return high;
}
