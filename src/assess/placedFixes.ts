import { finish, ofRoute, type Recording, type Route, type Snapped } from '../model';
import { nameLaps } from './nameLaps';
import { placeEntries } from './placeEntries';
import { wholeGrid } from './RouteGrid';
import { type CarriedRecording, testEntries } from './testEntries';

/** A recording as `assess` places it. */
export interface PlacedFixes {
  readonly name: string;
  readonly receiver: string | null;
  readonly run: string | null;
  readonly recording: Recording;
  readonly snapped: Snapped;
}

/** Where `assess` places each fix of the recordings that it judges; sections of the route told apart by their laps. */
export function placedFixes(
  authored: Route,
  recordings: readonly (Recording | CarriedRecording)[],
  pace: 'shared' | 'apart' = 'shared',
): { readonly route: Route; readonly placed: readonly PlacedFixes[] } {
  const route = nameLaps(authored);
  const entries = testEntries(recordings);
  const { placements } = finish(placeEntries(ofRoute(route, wholeGrid), route, entries, pace));
  const placed = entries.flatMap(({ name, receiver, run, recording }, i): PlacedFixes[] => {
    const { placed: one, refusal } = placements[i];
    return one && !refusal ? [{ name, receiver, run, recording, snapped: one.snapped }] : [];
  });
  return { route, placed };
}
