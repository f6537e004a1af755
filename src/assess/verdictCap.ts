import type { AssessedRecording, AssessmentRow } from './Assessment';
import { placementsOf } from './assessmentWarnings';
import type { Comparison } from './comparePair';
import { isConfounded } from './isConfounded';

/** Share of a stretch by which the closer one may have been away from the route more than the other. */
const MORE_AWAY = 0.02;

/** Why a pair may not be called closer, whatever its figures. */
export function verdictCap(
  recordings: readonly AssessedRecording[],
  rows: readonly Omit<AssessmentRow, 'verdictLimit'>[],
) {
  const byName = new Map(recordings.map((recording) => [recording.name, recording]));
  const offRoute = new Map(
    rows.map((row) => [`${row.section ?? ''} ${row.recording}`, row.offRoute / row.referenceLength]),
  );
  return ({ first, second, section, difference }: Comparison): string | undefined => {
    const [closer, other] = difference! < 0 ? [first, second] : [second, first];
    const away = (name: string) => offRoute.get(`${section ?? ''} ${name}`) ?? 0;
    // What was off the route has no offset and would drop out of the very figure it should spoil.
    if (away(closer) - away(other) > MORE_AWAY) return `“${closer}” spent more of it off the route`;
    const receiver = (name: string) => byName.get(name)!.receiver ?? name;
    const placements = placementsOf(recordings, receiver(first), receiver(second));
    return placements.length > 1 && isConfounded(placements)
      ? 'the two were never swapped between places: it may be the place'
      : undefined;
  };
}
