import {
  checkNumber,
  checkOptions,
  checkRecording,
  checkRoute,
  type OptionKeys,
  type Recording,
  type Route,
  type Snapped,
} from '../model';
import { FixTrack } from './FixTrack';
import { markPins } from './markPins';
import { preparedRoute } from './PreparedRoute';
import { snapTrack } from './snapTrack';

/** Options of {@link snap}. */
export interface SnapOptions {
  /** Standard deviation of a fix in metres, per axis. @defaultValue estimated from the recording, section by section */
  readonly sigma?: number;
  /**
   * Fixes further from the route than this, in metres, are not on it; where it is given, it alone decides.
   * @defaultValue 60, or 6 standard deviations where that is more; and closer ones, from 25 m and 2 standard deviations
   * on, where they stay there for longer than errors of the receiver would
   */
  readonly maxDistance?: number;
}

const optionKeys: OptionKeys<SnapOptions> = { sigma: true, maxDistance: true };

/** Refuses options that {@link snap} doesn't have. */
export function checkSnapOptions(options: SnapOptions): void {
  checkOptions(options, optionKeys);
  if (options.sigma !== undefined) checkNumber(options.sigma, 'options.sigma', { above: 0, max: 1e6 });
  if (options.maxDistance !== undefined) checkNumber(options.maxDistance, 'options.maxDistance', { above: 0 });
}

/**
 * Places a whole recording on a route: for each fix how many metres along it and from it, to which side, and how sure
 * that is.
 *
 * The whole sequence decides, never a fix alone: order, time, direction of motion and the recorded displacement tell
 * laps, the way out and the way back, crossings and parallel streets apart, through stops, gaps, sparse fixes and steps
 * back. Without times order alone decides. A pass of the route is never given up because another lies nearer: fixes that lie
 * a street or a block aside for up to a minute stay on their pass, those thrown along it and back on their place. The body gets from place to place along the route, as fast
 * as the recording shows it; that it left out a stretch or rode one again is believed when the fixes leave nothing else, and
 * told in `skips`. Where two passes of the route can't be told apart — a lap is missing and nothing shows which — the likelier
 * is given and `ambiguous` says so, on all the laps that it might be: of `n` the first that was ridden is sure by 1 − 1/n. A mark
 * of the route with a time pins the place at that time.
 *
 * - `crossTrack` and `distance` belong to the foot: the place nearest to the fix on the matched stretch, never on another.
 *   `footAlongTrack` is where it lies; of a fix more than 10 km from there it is that of the nearest foot within 12 m of the place
 *   where the body was.
 * - `state` tells fixes before the route was joined, after it was left, and in between away from it from those on it. A
 *   large error of the receiver leaves a fix on the route unless it exceeds `maxDistance`; a way beside the route is off it when
 *   the fixes together are too many so far away to be errors: a third of a minute at 40 m where `sigma` is 5 m, most of a
 *   minute where it is 10 m. A receiver that errs so far for so long looks the same, above all on a part of the route that
 *   is worse than the rest and no section of its own: give a `maxDistance` where that is to stay on the route.
 * - `issues` tells what is wrong with the recording as a whole: it runs against the route's direction, or its clock can't be
 *   trusted.
 * - A recording that is nowhere near the route is `unplaced` as a whole; one without fixes has empty columns.
 *
 * @example
 * const route = routeFromLine([[5, 60], [5.01, 60], [5, 60]])
 * const there = [5.001, 5.003, 5.005, 5.007, 5.009]
 * const lines = [...there, 5.01, ...there.reverse()].map((lon) => lon + ',60.00005')
 * const { crossTrack } = snap(route, readCsv(['lon,lat', ...lines].join('\n'))[0])
 * Array.from(crossTrack.slice(0, 3)) // → [-5.57…, -5.57…, -5.57…]
 * Array.from(crossTrack.slice(8)) // → [5.57…, 5.57…, 5.57…]
 *
 * @throws {InputError} an unknown option, columns of different lengths, or a fix not on the globe
 * @remarks Feet to 1e-5 m. Time and memory grow with the number of fixes and the length of the route, and time with the metres
 * of the route within reach of a fix, up to 6 km: bench/snap.bench.ts.
 */
export function snap(route: Route, recording: Recording, options: SnapOptions = {}): Snapped {
  checkRoute(route);
  checkRecording(recording);
  checkSnapOptions(options);
  const track = new FixTrack(recording);
  const prepared = preparedRoute(route);
  return snapTrack(prepared, track, markPins(route, recording), options);
}
