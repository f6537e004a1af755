import type { AssessedRecording, AssessmentRow, Verdict, VerdictLimit } from './Assessment';
import { placementsOf } from './assessmentWarnings';
import type { Comparison } from './comparePair';
import { isConfounded } from './isConfounded';

/** Share of a stretch by which one may have been away from the route more than the other. */
export const MORE_AWAY = 0.02;

export const CAP_RULE = `No verdict where the one that would gain by it spent ${100 * MORE_AWAY} % of the stretch more off the route than the other, nor on two receivers that over several runs were never swapped between the places they are worn at.`;

/** One of two that are compared, and the share of the stretch that it spent off the route. */
interface Compared {
  readonly name: string;
  readonly away: number;
}

/** Why no verdict rests on it: what was off the route has no offset, and would drop out of the very figure it should spoil. */
export function awayMore(
  candidate: Verdict,
  difference: number,
  first: Compared,
  second: Compared,
): VerdictLimit | undefined {
  const more = first.away - second.away;
  if (Math.abs(more) <= MORE_AWAY) return undefined;
  const stray = more > 0 ? first : second;
  if (candidate === 'closer' && stray !== (difference < 0 ? first : second)) return undefined;
  return { reason: 'off-the-route', message: `“${stray.name}” spent more of it off the route.` };
}

/** Why a pair may be called neither closer nor equivalent, whatever its figures. */
export function verdictCap(
  recordings: readonly AssessedRecording[],
  rows: readonly Omit<AssessmentRow, 'verdictLimit'>[],
) {
  const byName = new Map(recordings.map((recording) => [recording.name, recording]));
  const offRoute = new Map(
    rows.map((row) => [`${row.section ?? ''} ${row.recording}`, row.offRoute / row.referenceLength]),
  );
  return ({ first, second, section, difference }: Comparison, candidate: Verdict): VerdictLimit | undefined => {
    const compared = (name: string) => ({ name, away: offRoute.get(`${section ?? ''} ${name}`) ?? 0 });
    const stray = awayMore(candidate, difference!, compared(first), compared(second));
    if (stray !== undefined) return stray;
    const receiver = (name: string) => byName.get(name)!.receiver ?? name;
    const placements = placementsOf(recordings, receiver(first), receiver(second));
    // What one run's verdict says is of its two recordings; only over runs does it become one on receivers.
    return placements.length > 1 && isConfounded(placements)
      ? { reason: 'unbalanced', message: 'The two were never swapped between places: the place may explain it.' }
      : undefined;
  };
}
