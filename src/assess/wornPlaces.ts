import type { AssessedRecording } from './Assessment';
import type { WornAt } from './isConfounded';

/** Where two receivers were worn in the runs that have both, to be asked of any two among recordings that stand in comparisons. */
export function wornPlaces(recordings: readonly AssessedRecording[]): (first: string, second: string) => WornAt[] {
  /** By receiver, then by run; of several in a run the first. */
  const placements = new Map<string, Map<string | null, string | null>>();
  for (const { receiver, name, run, placement, included } of recordings) {
    if (!included) continue;
    const own = placements.get(receiver ?? name);
    if (!own) placements.set(receiver ?? name, new Map([[run, placement]]));
    else if (!own.has(run)) own.set(run, placement);
  }
  return (first, second) => {
    const others = placements.get(second);
    return [...(placements.get(first) ?? [])].flatMap(([run, placement]) =>
      others?.has(run) ? [{ first: placement, second: others.get(run)! }] : [],
    );
  };
}
