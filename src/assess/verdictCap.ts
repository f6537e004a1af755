import type { AssessedRecording, AssessmentRow, Verdict, VerdictLimit } from './Assessment';
import type { Comparison } from './comparePair';
import { isConfounded } from './isConfounded';
import { wornPlaces } from './wornPlaces';

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
  const receiverOf = new Map(recordings.map(({ name, receiver }) => [name, receiver ?? name]));
  const unbalanced = unbalancedAmong(recordings);
  const offRoute = new Map(
    rows.map((row) => [`${row.section ?? ''} ${row.recording}`, row.offRoute / row.referenceLength]),
  );
  return ({ first, second, section, difference }: Comparison, candidate: Verdict): VerdictLimit | undefined => {
    const compared = (name: string) => ({ name, away: offRoute.get(`${section ?? ''} ${name}`) ?? 0 });
    const stray = awayMore(candidate, difference!, compared(first), compared(second));
    if (stray !== undefined) return stray;
    return unbalanced(receiverOf.get(first)!, receiverOf.get(second)!)
      ? { reason: 'unbalanced', message: 'The two were never swapped between places: the place may explain it.' }
      : undefined;
  };
}

/** Whether two receivers were never swapped over several runs, found once for any two. */
function unbalancedAmong(recordings: readonly AssessedRecording[]): (first: string, second: string) => boolean {
  const worn = wornPlaces(recordings);
  const known = new Map<string, Map<string, boolean>>();
  return (first, second) => {
    const ofFirst = known.get(first) ?? new Map<string, boolean>();
    known.set(first, ofFirst);
    const found = ofFirst.get(second);
    if (found !== undefined) return found;
    const placements = worn(first, second);
    // What one run's verdict says is of its two recordings; only over runs does it become one on receivers.
    const is = placements.length > 1 && isConfounded(placements);
    ofFirst.set(second, is);
    return is;
  };
}
