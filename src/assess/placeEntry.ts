import { InputError, type Route } from '../model';
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
  const finite = recording.lon.reduce((n, lon, i) => n + (Number.isFinite(lon + recording.lat[i]) ? 1 : 0), 0);
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
      refusal: { reason: 'off-the-route', message: 'It never follows the route: another place, or another route?' },
    };
  }
  const times = recording.time?.filter(Number.isFinite);
  if (times && times.length > 0) {
    let low = times[0];
    let high = times[0];
    for (const time of times) {
      low = Math.min(low, time);
      high = Math.max(high, time);
    }
    if (high - low > DAY) {
      const days = ((high - low) / DAY).toFixed(1);
      return {
        placed,
        refusal: { reason: 'spans-days', message: `Its times span ${days} days: more than a single run.` },
      };
    }
  }
  return { placed };
}
