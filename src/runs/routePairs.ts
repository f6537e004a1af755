import { awayMore } from '../assess';
import { strictestMargin } from './strictestMargin';
import { type PairsOver, type PairTold, turnedPair } from './summaryPairs';
import type { Member } from './summaryRuns';
import type { TakenFigures } from './TakenFigures';

/** How two receivers are compared by their distances from the route on one section. */
export function routePairs(assessments: readonly TakenFigures[], section: string | null): PairsOver<Member> {
  return {
    equivalence: strictestMargin(assessments),
    // of several lever arms the strictest
    leverArm: Math.max(...assessments.map(({ method }) => method.options.leverArm)),
    told: (first, second): PairTold | undefined => {
      const pairs = first.told.get(section)?.pairs;
      const straight = pairs?.get(first.recording)?.get(second.recording);
      const turned = pairs?.get(second.recording)?.get(first.recording);
      return straight ?? (turned && turnedPair(turned));
    },
    cap: (candidate, difference, runs) => {
      const away = (side: 'first' | 'second') => ({
        name: runs[0][side].receiver,
        away: runs.reduce((sum, run) => sum + awayOf(run[side], section) / runs.length, 0),
      });
      return awayMore(candidate, difference, away('first'), away('second'));
    },
  };
}

/** Share of a section spent off the route. */
function awayOf({ told, recording }: Member, section: string | null): number {
  const row = told.get(section)?.rows.get(recording);
  return row && row.referenceLength > 0 ? row.offRoute / row.referenceLength : 0;
}
