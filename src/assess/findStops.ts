import { quantileSorted } from 'simple-statistics';
import { localPlane } from '../geodesy';
import type { Stop } from './Assessment';
import type { PlacedRecording } from './PlacedRecording';

/** Shorter waits, at a crossing, say nothing of how a fix wanders. */
const LEAST_SECONDS = 20;
/** Metres a second of net progress that still count as standing: scatter alone moves a mean that much. */
const STANDING = 0.25;
/** Metres the fixes may scatter about where the stop began. */
const SCATTER = 15;

export const STOP_RULE = `A stop: ${LEAST_SECONDS} s or more of less than ${STANDING} m a second of progress, within ${SCATTER} m.`;

/** The times spent standing on the route, in order. Needs times. */
export function findStops(placed: PlacedRecording): Stop[] {
  const { recording, snapped, first, last } = placed;
  const { time } = recording;
  const stops: Stop[] = [];
  if (!time || first < 0) return stops;
  const { alongTrack } = snapped;
  for (let i = first; i < last; i++) {
    if (!Number.isFinite(alongTrack[i]) || !Number.isFinite(time[i])) continue;
    let end = i;
    // The furthest fix that is still here: scatter may leave the circle for one fix, not travel on.
    for (let j = i + 1; j <= last && placed.joined[j] === 1; j++) {
      const progress = alongTrack[j] - alongTrack[i];
      const seconds = (time[j] - time[i]) / 1000;
      if (!(Math.abs(progress) <= SCATTER)) break;
      if (Math.abs(progress) <= STANDING * seconds) end = j;
    }
    if ((time[end] - time[i]) / 1000 < LEAST_SECONDS) continue;
    const slow = trim(placed, i, end);
    if (slow) stops.push(describe(placed, slow.from, slow.to));
    i = end;
  }
  return stops;
}

/** Takes off both ends what was still travelled at more than a slow walk over five fixes. */
function trim(placed: PlacedRecording, from: number, to: number): { from: number; to: number } | undefined {
  const { alongTrack } = placed.snapped;
  const time = placed.recording.time!;
  const moving = (i: number, j: number) =>
    Math.abs(alongTrack[j] - alongTrack[i]) > (0.7 * Math.abs(time[j] - time[i])) / 1000;
  while (from + 5 < to && moving(from, from + 5)) from++;
  while (to - 5 > from && moving(to - 5, to)) to--;
  return (time[to] - time[from]) / 1000 >= LEAST_SECONDS ? { from, to } : undefined;
}

function describe(placed: PlacedRecording, from: number, to: number): Stop {
  const { lon, lat, time } = placed.recording;
  const plane = localPlane([lon[from], lat[from]]);
  const points: [number, number][] = [];
  let length = 0;
  for (let i = from; i <= to; i++) {
    points.push(plane.toPlane([lon[i], lat[i]]));
    if (i > from) length += placed.step[i];
  }
  const east = points.reduce((sum, [x]) => sum + x, 0) / points.length;
  const north = points.reduce((sum, [, y]) => sum + y, 0) / points.length;
  const radii = points.map(([x, y]) => Math.hypot(x - east, y - north)).sort((a, b) => a - b);
  const along = Array.from(placed.snapped.alongTrack.subarray(from, to + 1)).sort((a, b) => a - b);
  return {
    alongTrack: quantileSorted(along, 0.5),
    seconds: (time![to] - time![from]) / 1000,
    r50: quantileSorted(radii, 0.5),
    r95: quantileSorted(radii, 0.95),
    length,
  };
}
