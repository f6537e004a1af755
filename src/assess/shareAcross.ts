import { group } from 'd3-array';
import type { AssessedRecording } from './Assessment';
import { AwayPlaces } from './AwayPlaces';
import type { BesideOthers } from './placeEntries';

/** What only the recordings of a run together can tell of each: who else was away there, and by how much it is late. */
export function shareAcross(
  described: readonly AssessedRecording[],
  beside: ReadonlyMap<string, BesideOthers>,
): AssessedRecording[] {
  const included = described.filter((one) => one.included);
  const runs = group(
    included.map(({ name, run, offRoute }) => ({ name, run, away: new AwayPlaces(offRoute) })),
    ({ run }) => run,
  );
  return described.map((one) => ({
    ...one,
    lag: beside.get(one.name)?.lag ?? null,
    offRoute: one.offRoute.map((episode) => ({
      ...episode,
      alsoAway: (runs.get(one.run) ?? []).flatMap(({ name, away }) =>
        name !== one.name && away.together(episode) ? [name] : [],
      ),
    })),
  }));
}
