import type { AssessedRecording, OffRouteEpisode } from './Assessment';
import { awayTogether } from './awayTogether';
import type { NamedPlaced } from './comparePair';
import type { RouteGrid } from './RouteGrid';
import { lagsOf } from './shownDistances';

/** The recordings of one run that stand in comparisons. */
export interface RunMembers {
  readonly run: string | null;
  readonly members: readonly NamedPlaced[];
}

/** What only the recordings of a run together can tell of each: who else was away there, and by how much it is late. */
export function shareAcross(
  grid: RouteGrid,
  described: readonly AssessedRecording[],
  runs: readonly RunMembers[],
): AssessedRecording[] {
  const lags = new Map<string, AssessedRecording['lag']>();
  for (const { members } of runs) {
    lagsOf(grid, members).forEach((lag, i) => {
      lags.set(members[i].name, lag);
    });
  }
  return described.map((one) => {
    const others = described.filter((other) => other !== one && other.included && other.run === one.run);
    const alsoAway = (episode: OffRouteEpisode) =>
      others.filter(({ offRoute }) => offRoute.some((other) => awayTogether(episode, other))).map(({ name }) => name);
    return {
      ...one,
      lag: lags.get(one.name) ?? null,
      offRoute: one.offRoute.map((episode) => ({ ...episode, alsoAway: alsoAway(episode) })),
    };
  });
}
