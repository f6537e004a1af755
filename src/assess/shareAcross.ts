import type { AssessedRecording, OffRouteEpisode } from './Assessment';
import { awayTogether } from './awayTogether';
import type { BesideOthers } from './placeEntries';

/** What only the recordings of a run together can tell of each: who else was away there, and by how much it is late. */
export function shareAcross(
  described: readonly AssessedRecording[],
  beside: ReadonlyMap<string, BesideOthers>,
): AssessedRecording[] {
  return described.map((one) => {
    const others = described.filter((other) => other !== one && other.included && other.run === one.run);
    const alsoAway = (episode: OffRouteEpisode) =>
      others.filter(({ offRoute }) => offRoute.some((other) => awayTogether(episode, other))).map(({ name }) => name);
    return {
      ...one,
      lag: beside.get(one.name)?.lag ?? null,
      offRoute: one.offRoute.map((episode) => ({ ...episode, alsoAway: alsoAway(episode) })),
    };
  });
}
