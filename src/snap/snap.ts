import type { Recording } from '../formats/Recording';
import { checkOptions, type OptionKeys } from '../internal/checkOptions';
import type { Route } from '../route/Route';
import { SegmentTree } from '../route/SegmentTree';
import type { FixState, Snapped } from './Snapped';

/** Options of {@link snap}. */
export interface SnapOptions {
  /** Standard deviation of a fix in metres, per axis. @defaultValue estimated from the recording */
  readonly sigma?: number;
}

const optionKeys: OptionKeys<SnapOptions> = { sigma: true };

/**
 * Places a whole recording on a route: metres along it and from it for each fix.
 *
 * @throws {InputError} an unknown option
 */
export function snap(route: Route, recording: Recording, options: SnapOptions = {}): Snapped {
  checkOptions(options, optionKeys);
  const n = recording.lon.length;
  const tree = new SegmentTree(route.lon, route.lat);
  const alongTrack = new Float64Array(n).fill(Number.NaN);
  const crossTrack = new Float64Array(n).fill(Number.NaN);
  const distance = new Float64Array(n).fill(Number.NaN);
  const segment = new Int32Array(n).fill(-1);
  const state: FixState[] = new Array(n).fill('unplaced');
  const confidence = new Float32Array(n);
  let at = 0;
  for (let i = 0; i < n; i++) {
    const [lon, lat] = [recording.lon[i], recording.lat[i]];
    let found = tree.nearest(lon, lat, 60, Math.max(at - 10, 0), Math.min(at + 40, tree.size));
    if (found < 0) found = tree.nearest(lon, lat, 60, at, tree.size);
    if (found < 0) found = tree.nearest(lon, lat, 60);
    if (found < 0) continue;
    at = found;
    const [from, to] = [route.alongTrack[found], route.alongTrack[found + 1]];
    alongTrack[i] = from + tree.fraction * (to - from);
    crossTrack[i] = tree.crossTrack;
    distance[i] = tree.distance;
    segment[i] = found;
    state[i] = 'on';
    confidence[i] = 1;
  }
  return { alongTrack, crossTrack, distance, segment, state, confidence, ambiguous: [] };
}
