import { rollup } from 'd3-array';
import { MORE_AWAY } from '../assess';
import type { TimedAssessment } from '../truth';
import { type PairsOver, type PairTold, turnedPair } from './summaryPairs';
import type { TimedMember } from './TimedMember';

/** How two receivers are compared by their mean horizontal errors on one section. */
export function timedPairsOver(timed: readonly TimedAssessment[], section: string | null): PairsOver<TimedMember> {
  const found = new Map(timed.map((one) => [one, onStretch(one, section)]));
  const rowOf = (member: TimedMember) => found.get(member.timed)!.rows.get(member.recording);
  return {
    equivalence: Math.min(...timed.map(({ method }) => method.options.equivalence)),
    leverArm: Math.max(...timed.map(({ method }) => method.options.leverArm)),
    told: (first, second): PairTold | undefined => {
      const { pairs } = found.get(first.timed)!;
      const straight = pairs.get(first.recording)?.get(second.recording);
      const turned = pairs.get(second.recording)?.get(first.recording);
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

/** What one assessment says of a stretch: rows by recording, pairs by their first and then their second. */
function onStretch({ rows, pairs }: TimedAssessment, section: string | null) {
  return {
    rows: new Map(rows.flatMap((row) => (row.section === section ? [[row.recording, row]] : []))),
    pairs: rollup(
      pairs.filter((pair) => pair.section === section),
      (ofFirst) => new Map(ofFirst.map((pair) => [pair.second, pair])),
      ({ first }) => first,
    ),
  };
}
