import type { CommonShift } from './Assessment';
import type { NamedPlaced } from './NamedPlaced';
import type { RouteGrid } from './RouteGrid';

/** Below this the directions of the route are too much alike to tell east from north. */
const LEAST_CONDITION = 0.02;

/**
 * The translation, east and north, that explains most of all recordings' offsets by least squares; null where the covered
 * metres run too much in one direction to tell.
 *
 * @param elsewhere - As {@link binsElsewhere}.
 */
export function commonShift(
  grid: RouteGrid,
  recordings: readonly NamedPlaced[],
  elsewhere: Uint8Array,
): CommonShift | null {
  const fits = recordings.flatMap(({ placed }) => shiftOf(grid, placed.offset, elsewhere) ?? []);
  if (fits.length === 0) return null;
  const count = fits.length;
  const east = fits.reduce((sum, fit) => sum + fit.east / count, 0);
  const north = fits.reduce((sum, fit) => sum + fit.north / count, 0);
  const error = (key: 'east' | 'north', mean: number) =>
    Math.sqrt(fits.reduce((sum, fit) => sum + (fit[key] - mean) ** 2, 0) / (count - 1) / count);
  const azimuth = (Math.atan2(east, north) * 180) / Math.PI;
  return {
    east,
    north,
    distance: Math.hypot(east, north),
    azimuth: azimuth < 0 ? azimuth + 360 : azimuth,
    standardError: count < 2 ? null : { east: error('east', east), north: error('north', north) },
    recordings: count,
  };
}

/** What one recording's offsets make of it. */
function shiftOf(
  { count, width, rightEast, rightNorth }: RouteGrid,
  offset: Float64Array,
  elsewhere: Uint8Array,
): { readonly east: number; readonly north: number } | undefined {
  let ee = 0;
  let en = 0;
  let nn = 0;
  let eo = 0;
  let no = 0;
  for (let k = 0; k < count; k++) {
    if (Number.isNaN(offset[k]) || elsewhere[k] === 1) continue;
    const w = width[k];
    const e = rightEast[k];
    const n = rightNorth[k];
    ee += w * e * e;
    en += w * e * n;
    nn += w * n * n;
    eo += w * e * offset[k];
    no += w * n * offset[k];
  }
  const determinant = ee * nn - en * en;
  // determinant ÷ (half the trace)² runs from 0, one direction, to 1, all alike
  if (!(determinant > LEAST_CONDITION * ((ee + nn) / 2) ** 2)) return undefined;
  return { east: (eo * nn - no * en) / determinant, north: (no * ee - eo * en) / determinant };
}
