import type { Recording } from '../formats/Recording';
import { checkNumber } from '../internal/checkNumber';
import { checkOptions, type OptionKeys } from '../internal/checkOptions';
import type { Route } from '../route/Route';
import { SegmentTree } from '../route/SegmentTree';
import { Bins } from './Bins';
import { FixTrack } from './FixTrack';
import { markPins } from './markPins';
import type { Snapped } from './Snapped';
import { snapTrack } from './snapTrack';

/** Options of {@link snap}. */
export interface SnapOptions {
  /** Standard deviation of a fix in metres, per axis. @defaultValue estimated from the recording, section by section */
  readonly sigma?: number;
  /**
   * Fixes further from the route than this, in metres, are not on it.
   * @defaultValue 60, or 6 standard deviations where that is more
   */
  readonly reach?: number;
}

const optionKeys: OptionKeys<SnapOptions> = { sigma: true, reach: true };

/**
 * Places a whole recording on a route: metres along it and from it for each fix.
 *
 * @throws {InputError} an unknown option
 */
export function snap(route: Route, recording: Recording, options: SnapOptions = {}): Snapped {
  checkOptions(options, optionKeys);
  const { sigma, reach } = options;
  if (sigma !== undefined) checkNumber(sigma, 'options.sigma', { above: 0 });
  if (reach !== undefined) checkNumber(reach, 'options.reach', { above: 0 });
  const track = new FixTrack(recording);
  const prepared = { route, tree: new SegmentTree(route.lon, route.lat), bins: new Bins(route) };
  return snapTrack(prepared, track, markPins(route, recording), options);
}
