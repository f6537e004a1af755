import { SegmentTree } from '../index';
import type { Recording, Route, Snapped } from '../model';
import { Bins } from './Bins';
import { FixTrack } from './FixTrack';
import type { Pin } from './LatticeStates';
import { snapTrack } from './snapTrack';

/** A recording placed on a route as {@link snap} does it, some of its fixes held to where they are known to have been. */
export function snapPinned(route: Route, recording: Recording, pins: readonly Pin[]): Snapped {
  const prepared = { route, tree: new SegmentTree(route.lon, route.lat), bins: new Bins(route) };
  return snapTrack(prepared, new FixTrack(recording), pins, {});
}
