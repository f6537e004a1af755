import { quantileSorted } from 'd3-array';
import { localPlane } from '../geodesy';
import { knownMedian } from '../model';
import type { Stop } from './Assessment';
import type { PlacedRecording } from './PlacedRecording';

/** Shorter waits, at a crossing, say nothing of how a fix wanders. */
const LEAST_SECONDS = 20;
/** Metres a second of net progress that still count as standing: scatter alone moves a mean that much. */
const STANDING = 0.25;
/** Metres the fixes may scatter about where the stop began. */
const SCATTER = 15;

export const STOP_RULE = `A stop: ${LEAST_SECONDS} s or more of less than ${STANDING} m a second of progress, within ${SCATTER} m.`;

/**
 * The times spent standing on the route, in order. Needs times.
 *
 * @remarks Linear where the body goes on; the square of the fixes of a walk to and fro within {@link SCATTER} metres
 */
export function findStops(placed: PlacedRecording): Stop[] {
  const { recording, snapped, first, last } = placed;
  const { time } = recording;
  if (!time || first < 0) return [];
  const { alongTrack } = snapped;
  const found: { from: number; to: number }[] = [];
  for (let i = first; i < last; i++) {
    if (!Number.isFinite(alongTrack[i]) || !Number.isFinite(time[i]) || isMoving(placed, i, i + LOOK)) continue;
    let end = i;
    // The furthest fix that is still here: scatter may leave the circle for one fix, not travel on.
    for (let j = i + 1; j <= last && placed.joined[j] === 1; j++) {
      const progress = alongTrack[j] - alongTrack[i];
      const seconds = (time[j] - time[i]) / 1000;
      if (!(Math.abs(progress) <= SCATTER)) break;
      if (Math.abs(progress) <= STANDING * seconds) end = j;
    }
    while (end - LOOK > i && isMoving(placed, end - LOOK, end)) end--;
    // how long it lasted is known between fixes with a time
    while (!Number.isFinite(time[end])) end--;
    if ((time[end] - time[i]) / 1000 < LEAST_SECONDS) continue;
    const before = found[found.length - 1];
    // one fix that scatters far ends no stop
    if (before && i - before.to <= LOOK && Math.abs(alongTrack[i] - alongTrack[before.from]) <= SCATTER)
      before.to = end;
    else found.push({ from: i, to: end });
    i = end;
  }
  return found.map(({ from, to }) => describe(placed, from, to));
}

/** Fixes over which it is seen whether the wearer moves, and metres a second of a slow walk. */
const LOOK = 5;
const SLOW_WALK = 0.7;

function isMoving({ snapped: { alongTrack }, recording }: PlacedRecording, from: number, to: number): boolean {
  const seconds = (recording.time![to] - recording.time![from]) / 1000;
  return Math.abs(alongTrack[to] - alongTrack[from]) > SLOW_WALK * seconds;
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
  return {
    alongTrack: knownMedian(placed.snapped.alongTrack.subarray(from, to + 1)),
    seconds: (time![to] - time![from]) / 1000,
    r50: quantileSorted(radii, 0.5)!,
    r95: quantileSorted(radii, 0.95)!,
    length,
  };
}
