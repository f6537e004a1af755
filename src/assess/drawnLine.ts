import type { DrawnLine } from './Assessment';

/** Columns to draw from: degrees, and metres along the route or NaN. */
export interface LineColumns {
  readonly lon: ArrayLike<number>;
  readonly lat: ArrayLike<number>;
  readonly alongTrack: ArrayLike<number>;
}

const METRES_PER_DEGREE = 111_320;

/**
 * A line with the points left out that lie within `tolerance` metres of the line through the others, rounded to a
 * centimetre.
 *
 * @see Douglas, Peucker, Algorithms for the reduction of the number of points, Cartographica 10 (1973)
 */
export function drawnLine({ lon, lat, alongTrack }: LineColumns, tolerance: number): DrawnLine {
  const n = lon.length;
  const x = new Float64Array(n);
  const y = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const unwrapped = i === 0 ? lon[0] : lon[i] - 360 * Math.round((lon[i] - lon[i - 1]) / 360);
    x[i] = i === 0 ? 0 : x[i - 1] + (unwrapped - lon[i - 1]) * METRES_PER_DEGREE * Math.cos((lat[0] * Math.PI) / 180);
    y[i] = lat[i] * METRES_PER_DEGREE;
  }
  const keep = new Uint8Array(n);
  if (n > 0) keep[0] = keep[n - 1] = 1;
  const open: [number, number][] = n > 2 ? [[0, n - 1]] : [];
  while (open.length > 0) {
    const [a, b] = open.pop()!;
    const ex = x[b] - x[a];
    const ey = y[b] - y[a];
    const length2 = ex * ex + ey * ey;
    let worst = tolerance * tolerance;
    let at = -1;
    for (let i = a + 1; i < b; i++) {
      const px = x[i] - x[a];
      const py = y[i] - y[a];
      const along = length2 > 0 ? Math.min(1, Math.max(0, (px * ex + py * ey) / length2)) : 0;
      const square = (px - along * ex) ** 2 + (py - along * ey) ** 2;
      if (square > worst) {
        worst = square;
        at = i;
      }
    }
    if (at < 0) continue;
    keep[at] = 1;
    open.push([a, at], [at, b]);
  }
  const kept: number[] = [];
  for (let i = 0; i < n; i++) if (keep[i] === 1) kept.push(i);
  let previous = n > 0 ? lon[0] : 0;
  return {
    lon: kept.map((i) => round((previous = lon[i] - 360 * Math.round((lon[i] - previous) / 360)), 7)),
    lat: kept.map((i) => round(lat[i], 7)),
    alongTrack: kept.map((i) => (Number.isFinite(alongTrack[i]) ? round(alongTrack[i], 2) : null)),
  };
}

/** To so many decimals, without a negative zero. */
export function round(value: number, decimals: number): number {
  const scale = 10 ** decimals;
  return Math.round(value * scale) / scale + 0;
}
