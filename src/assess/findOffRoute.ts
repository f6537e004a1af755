import { indexRoute, type RouteIndex } from '../index';
import type { OffRouteEpisode } from './Assessment';
import type { PlacedRecording } from './PlacedRecording';
import type { RouteGrid } from './RouteGrid';

/** Further than three half widths, and than this, for a quarter of a minute is no longer beside the route. */
const FAR = 30;
const LEAST_SECONDS = 15;

export const OFF_ROUTE_RULE = `Off the route: placed so, or further from it than ${FAR} m and three half widths for ${LEAST_SECONDS} s.`;

/** The times a recording spent away from the route between joining and leaving it, in order. */
export function findOffRoute(grid: RouteGrid, placed: PlacedRecording): Omit<OffRouteEpisode, 'alsoAway'>[] {
  const { recording, snapped, first, last } = placed;
  const { alongTrack, crossTrack, state } = snapped;
  const away = (i: number): boolean => {
    if (state[i] === 'off') return true;
    if (!Number.isFinite(crossTrack[i])) return false;
    const halfWidth = grid.halfWidth[grid.binAt(alongTrack[i])];
    return Math.abs(crossTrack[i]) > Math.max(FAR, Number.isNaN(halfWidth) ? 0 : 3 * halfWidth);
  };
  const episodes: Omit<OffRouteEpisode, 'alsoAway'>[] = [];
  let index: RouteIndex | undefined;
  for (let i = first + 1; i > 0 && i < last; i++) {
    if (!away(i)) continue;
    let end = i;
    let off = false;
    for (; end < last && away(end); end++) off ||= state[end] === 'off';
    const seconds = recording.time ? (recording.time[end] - recording.time[i - 1]) / 1000 : Number.NaN;
    const from = lastOn(alongTrack, i - 1, -1);
    const to = lastOn(alongTrack, end, 1);
    if (from !== undefined && to !== undefined && (off || seconds >= LEAST_SECONDS)) {
      index ??= indexRoute(grid.route);
      let length = 0;
      let peak = 0;
      const between = {
        from: Math.max(0, Math.min(from, to) - 1),
        to: Math.min(grid.route.length, Math.max(from, to) + 1),
      };
      for (let j = i; j <= end; j++) {
        if (placed.step[j] >= 0) length += placed.step[j];
        if (j === end || !Number.isFinite(recording.lon[j] + recording.lat[j])) continue;
        const place = index.nearest([recording.lon[j], recording.lat[j]], { between });
        peak = Math.max(peak, place?.distance ?? 0);
      }
      episodes.push({
        from,
        to,
        seconds: Number.isFinite(seconds) ? seconds : null,
        length,
        detour: length - Math.abs(to - from),
        peak,
      });
    }
    i = end;
  }
  return episodes;
}

function lastOn(alongTrack: Float64Array, start: number, direction: number): number | undefined {
  for (let i = start; i >= 0 && i < alongTrack.length; i += direction) {
    if (Number.isFinite(alongTrack[i])) return alongTrack[i];
  }
  return undefined;
}
