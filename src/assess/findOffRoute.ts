import { indexRoute, type RouteIndex } from '../index';
import type { OffRouteEpisode } from './Assessment';
import type { PlacedRecording } from './PlacedRecording';
import type { RouteGrid } from './RouteGrid';

export const OFF_ROUTE_RULE =
  'Off the route: further from it than the receiver’s errors reach (60 m, or 6 standard deviations where that is more), or from 25 m and 2 standard deviations on for longer than its errors last.';

/** The times a recording spent away from the route between joining and leaving it, in order. */
export function findOffRoute(grid: RouteGrid, placed: PlacedRecording): Omit<OffRouteEpisode, 'alsoAway'>[] {
  const { recording, snapped, first, last } = placed;
  const { alongTrack, state } = snapped;
  const episodes: Omit<OffRouteEpisode, 'alsoAway'>[] = [];
  let index: RouteIndex | undefined;
  for (let i = first + 1; i > 0 && i < last; i++) {
    if (state[i] !== 'off') continue;
    let end = i;
    while (end < last && state[end] === 'off') end++;
    const seconds = recording.time ? (recording.time[end] - recording.time[i - 1]) / 1000 : Number.NaN;
    // the first and the last fix are on the route
    const from = lastOn(alongTrack, i - 1, -1);
    const to = lastOn(alongTrack, end, 1);
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
    i = end;
  }
  return episodes;
}

function lastOn(alongTrack: Float64Array, start: number, direction: number): number {
  let i = start;
  while (!Number.isFinite(alongTrack[i])) i += direction;
  return alongTrack[i];
}
