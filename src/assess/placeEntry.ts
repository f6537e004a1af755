import { indexRoute } from '../index';
import { InputError, type Recording, type Route } from '../model';
import { snap } from '../snap';
import type { LeftOut } from './Assessment';
import { PlacedRecording } from './PlacedRecording';
import type { RouteGrid } from './RouteGrid';
import type { Entry } from './testEntries';

const DAY = 24 * 3600 * 1000;

/** A recording on the route, and why it stands in no comparison if it doesn't. */
export interface Placement {
  readonly placed?: PlacedRecording;
  readonly refusal?: LeftOut;
}

/** An entry placed alone. */
export function placeEntry(grid: RouteGrid, route: Route, { recording, snapped }: Entry): Placement {
  const { lon, lat, time } = recording;
  let finite = 0;
  for (let i = 0; i < lon.length; i++) if (Number.isFinite(lon[i] + lat[i])) finite++;
  if (finite < 2) {
    const message = `It has ${finite} usable ${finite === 1 ? 'fix' : 'fixes'}: a line needs 2.`;
    return { refusal: { reason: 'too-few-fixes', message } };
  }
  let placed: PlacedRecording;
  try {
    placed = new PlacedRecording(grid, recording, snapped ?? snap(route, recording));
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { refusal: { reason: 'unreadable', message: `It could not be placed: ${error.message}.` } };
  }
  if (placed.offset.every(Number.isNaN)) {
    return {
      refusal: { reason: 'off-the-route', message: `It never follows the route: ${whereInstead(route, recording)}` },
    };
  }
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; time && i < time.length; i++) {
    if (!Number.isFinite(time[i])) continue;
    low = Math.min(low, time[i]);
    high = Math.max(high, time[i]);
  }
  if (high - low > DAY) {
    const days = ((high - low) / DAY).toFixed(1);
    const message = `Its times span ${days} days: more than a single run. Its figures take them together; cut it into one recording a run.`;
    return { placed, refusal: { reason: 'spans-days', message } };
  }
  return { placed };
}

/** Metres: what lies nearer, longitude and latitude exchanged, was written the other way round. */
const THERE = 10_000;

/** Fixes looked at: nobody needs to know it to the metre. */
const LOOKED_AT = 50;

/** Where a recording lies that is not on the route, and whether that is a slip. */
function whereInstead(route: Route, { lon, lat }: Recording): string {
  const index = indexRoute(route);
  const step = Math.max(1, Math.floor(lon.length / LOOKED_AT));
  let apart = Number.POSITIVE_INFINITY;
  let swapped = Number.POSITIVE_INFINITY;
  for (let i = 0; i < lon.length; i += step) {
    if (!Number.isFinite(lon[i] + lat[i])) continue;
    apart = Math.min(apart, index.nearest([lon[i], lat[i]])!.distance);
    if (Math.abs(lon[i]) <= 90) swapped = Math.min(swapped, index.nearest([lat[i], lon[i]])!.distance);
  }
  if (apart > THERE && swapped < THERE) {
    return `it lies ${inWords(apart)} away; latitude and longitude look swapped.`;
  }
  return apart > 50 ? `it lies ${inWords(apart)} away: another place, or another route?` : 'another route?';
}

const inWords = (metres: number) =>
  metres < 1000 ? `${metres.toFixed(0)} m` : `${(metres / 1000).toFixed(metres < 10_000 ? 1 : 0)} km`;
