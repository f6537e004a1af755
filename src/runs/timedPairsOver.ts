import { MORE_AWAY } from '../assess';
import type { TimedAssessment } from '../truth';
import { type PairsOver, type PairTold, turnedPair } from './summaryPairs';
import type { TimedMember } from './TimedMember';

/** How two receivers are compared by their mean horizontal errors on one section. */
export function timedPairsOver(timed: readonly TimedAssessment[], section: string | null): PairsOver<TimedMember> {
  const rowOf = ({ timed: { rows }, recording }: TimedMember) =>
    rows.find((row) => row.recording === recording && row.section === section);
  return {
    equivalence: Math.min(...timed.map(({ method }) => method.options.equivalence)),
    leverArm: Math.max(...timed.map(({ method }) => method.options.leverArm)),
    told: (first, second): PairTold | undefined => {
      const pairs = first.timed.pairs.filter((pair) => pair.section === section);
      const straight = pairs.find((pair) => pair.first === first.recording && pair.second === second.recording);
      const turned = pairs.find((pair) => pair.first === second.recording && pair.second === first.recording);
      return straight ?? (turned && turnedPair(turned));
    },
    cap: (candidate, difference, runs) => {
      const meanOf = (side: 'first' | 'second', figure: (member: TimedMember) => number) =>
        runs.reduce((sum, run) => sum + figure(run[side]) / runs.length, 0);
      const error = (side: 'first' | 'second') => meanOf(side, (member) => rowOf(member)?.horizontal?.mean ?? 0);
      const doubt = Math.max(...runs.map(({ first }) => rowOf(first)?.doubt95 ?? 0));
      if (Math.max(error('first'), error('second')) < doubt) {
        const message = `Both lie within the truth’s own uncertainty of ${doubt.toFixed(1)} m.`;
        return { reason: 'below-floor', message };
      }
      const missing = (side: 'first' | 'second') => meanOf(side, (member) => 1 - (rowOf(member)?.availability ?? 0));
      const more = missing('first') - missing('second');
      if (Math.abs(more) <= MORE_AWAY) return undefined;
      const absent = more > 0 ? 'first' : 'second';
      if (candidate === 'closer' && absent !== (difference < 0 ? 'first' : 'second')) return undefined;
      return { reason: 'outages', message: `“${runs[0][absent].receiver}” was without a fix for more of it.` };
    },
  };
}
