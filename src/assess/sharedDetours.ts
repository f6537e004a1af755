import { group } from 'd3-array';
import type { AssessedRecording } from './Assessment';
import { AwayPlaces } from './AwayPlaces';

/** The stretches on which every recording of some run was off the route, one for each run and place, in order. */
export function sharedDetours(
  included: readonly AssessedRecording[],
): { readonly from: number; readonly to: number }[] {
  const detours: { from: number; to: number }[] = [];
  for (const members of group(included, ({ run }) => run).values()) {
    const away = members.map(({ offRoute }) => new AwayPlaces(offRoute));
    let last: { from: number; to: number } | undefined;
    for (const episode of members[0].offRoute) {
      if (members.length < 2 || episode.alsoAway.length < members.length - 1) continue;
      const all = away.flatMap((places) => places.together(episode) ?? []);
      const from = Math.min(...all.map((one) => one.from));
      const to = Math.max(...all.map((one) => one.to));
      if (last && from <= last.to) last.to = Math.max(last.to, to);
      else detours.push((last = { from, to }));
    }
  }
  return detours;
}
