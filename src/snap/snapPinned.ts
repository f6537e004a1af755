import type { Recording, Route, Snapped } from '../model';
import { FixTrack } from './FixTrack';
import type { Pin } from './LatticeStates';
import { preparedRoute } from './PreparedRoute';
import { snapTrack } from './snapTrack';

/** A recording placed on a route as {@link snap} does it, some of its fixes held to where they are known to have been. */
export function snapPinned(route: Route, recording: Recording, pins: readonly Pin[]): Snapped {
  return snapTrack(preparedRoute(route), new FixTrack(recording), pins, {});
}
