import { verticesOf } from '../index';
import type { Route } from '../model';

/** At each vertex of a route how much it turns there, radians, to the left positive; 0 at the ends and at an exact reversal. */
export function turnsOf(route: Route): Float64Array {
  const { x, y, z, count } = verticesOf(route);
  const turns = new Float64Array(count);
  let before = 0;
  for (let i = 1; i + 1 < count; i++) {
    // repeated vertices turn nothing; the one that is left at last holds the turn
    if (x[i + 1] === x[i] && y[i + 1] === y[i] && z[i + 1] === z[i]) continue;
    const [ax, ay, az] = [x[i] - x[before], y[i] - y[before], z[i] - z[before]];
    const [bx, by, bz] = [x[i + 1] - x[i], y[i + 1] - y[i], z[i + 1] - z[i]];
    before = i;
    // the normal of the sphere is that of the ellipsoid to 0.2°, which changes a turn by its square
    const up = Math.hypot(x[i], y[i], z[i]);
    const across = ((ay * bz - az * by) * x[i] + (az * bx - ax * bz) * y[i] + (ax * by - ay * bx) * z[i]) / up;
    const along = ax * bx + ay * by + az * bz;
    const turn = Math.atan2(across, along);
    // nearer to half a turn than this the side is rounding alone
    if (Math.PI - Math.abs(turn) > 1e-6) turns[i] = turn;
  }
  return turns;
}
