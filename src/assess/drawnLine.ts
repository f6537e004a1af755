import { MEAN_RADIUS, RADIAN, thinLine } from '../geodesy';
import type { DrawnLine } from './Assessment';

/** Columns to draw from: degrees, and metres along the route or NaN. */
export interface LineColumns {
  readonly lon: ArrayLike<number>;
  readonly lat: ArrayLike<number>;
  readonly alongTrack: ArrayLike<number>;
}

/** A line with the points left out that lie within `tolerance` metres of the line through the others, to a centimetre. */
export function drawnLine({ lon, lat, alongTrack }: LineColumns, tolerance: number): DrawnLine {
  const n = lon.length;
  const x = new Float64Array(n);
  const y = new Float64Array(n);
  const metres = MEAN_RADIUS * RADIAN;
  const wide = n > 0 ? metres * Math.cos(lat[0] * RADIAN) : 0;
  for (let i = 0; i < n; i++) {
    const unwrapped = i === 0 ? lon[0] : lon[i] - 360 * Math.round((lon[i] - lon[i - 1]) / 360);
    x[i] = i === 0 ? 0 : x[i - 1] + wide * (unwrapped - lon[i - 1]);
    y[i] = metres * lat[i];
  }
  const kept = thinLine(x, y, tolerance);
  let previous = n > 0 ? lon[0] : 0;
  return {
    lon: kept.map((i) => round((previous = lon[i] - 360 * Math.round((lon[i] - previous) / 360)), 7)),
    lat: kept.map((i) => round(lat[i], 7)),
    alongTrack: kept.map((i) => (Number.isFinite(alongTrack[i]) ? round(alongTrack[i], 2) : null)),
  };
}

/** Powers of ten, as raising ten to them takes longer than all the rest. */
const SCALES = Array.from({ length: 16 }, (_, decimals) => 10 ** decimals);

/** To so many decimals, 15 at most, without a negative zero. */
export function round(value: number, decimals: number): number {
  const scale = SCALES[decimals];
  return Math.round(value * scale) / scale + 0;
}
