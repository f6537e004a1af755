import type { AssessedRecording } from './Assessment';
import { awayTogether } from './awayTogether';

/** The stretches on which every recording of some run was off the route, one for each run and place, in order. */
export function sharedDetours(
  included: readonly AssessedRecording[],
): { readonly from: number; readonly to: number }[] {
  const runs = new Map<string | null, AssessedRecording[]>();
  for (const one of included) runs.set(one.run, [...(runs.get(one.run) ?? []), one]);
  const detours: { from: number; to: number }[] = [];
  for (const members of runs.values()) {
    let last: { from: number; to: number } | undefined;
    for (const episode of members[0].offRoute) {
      if (members.length < 2 || episode.alsoAway.length < members.length - 1) continue;
      const all = members.flatMap(({ offRoute }) => offRoute.filter((other) => awayTogether(episode, other)));
      const from = Math.min(...all.map((one) => Math.min(one.from, one.to)));
      const to = Math.max(...all.map((one) => Math.max(one.from, one.to)));
      if (last && from <= last.to) last.to = Math.max(last.to, to);
      else detours.push((last = { from, to }));
    }
  }
  return detours;
}
