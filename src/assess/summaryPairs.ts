import type { Assessment } from './Assessment';
import { detectableDifference, runsNeeded } from './detectableDifference';
import { holm } from './holm';
import { isConfounded } from './isConfounded';
import { known, overRuns } from './overRuns';
import { signFlip } from './signFlip';
import { type Member, placements, type Run } from './summaryRuns';
import type { SummaryPair } from './TestSummary';

/** Every two receivers on one section over the runs that have both. */
export function summaryPairs(
  assessments: readonly Assessment[],
  runs: readonly Run[],
  receivers: readonly string[],
  section: string | null,
): SummaryPair[] {
  const equivalence = Math.min(...assessments.map(({ method }) => method.options.equivalence));
  const drafts = receivers.flatMap((first, i) =>
    receivers.slice(i + 1).map((second) => {
      const found = runs.map(({ members }) => pairIn(members, first, second, section));
      const byRun = found.map((pair) => pair?.difference ?? null);
      const differences = known(byRun);
      const floors = found.flatMap((pair) => (pair ? [pair.floor] : []));
      return { first, second, byRun, differences, spread: overRuns(differences), floors };
    }),
  );
  const adjusted = holm(drafts.map(({ spread }) => spread?.pValue ?? null));
  return drafts.map(({ first, second, byRun, differences, spread, floors }, i): SummaryPair => {
    const n = differences.length;
    const floor = Math.max(assessments[0].method.options.leverArm, ...floors);
    const limits: string[] = [];
    let verdict: SummaryPair['verdict'] = 'undecided';
    if (!spread) limits.push('no run has both');
    else if (!spread.interval95) limits.push('one run ranks nothing');
    else {
      const [low, high] = spread.interval95;
      if (isConfounded(placements(runs, first, second)))
        limits.push('never swapped between places: it may be the place');
      else if (low > -equivalence && high < equivalence) verdict = 'equivalent';
      else if (low <= 0 && high >= 0) limits.push('the interval includes 0');
      else if (Math.abs(spread.mean) <= floor) limits.push(`smaller than the floor of ${floor.toFixed(1)} m`);
      else if ((adjusted[i] ?? 1) > 0.05) limits.push('not beyond chance among so many pairs');
      else verdict = 'closer';
    }
    const needed = spread?.sd == null ? null : runsNeeded(spread.sd, spread.mean);
    return {
      first,
      second,
      section,
      runs: n,
      difference: spread?.mean ?? null,
      interval95: spread?.interval95 ?? null,
      verdict,
      ...(verdict === 'closer' ? { closer: spread!.mean < 0 ? first : second } : {}),
      floor,
      pValue: spread?.pValue ?? null,
      signFlipPValue: signFlip(differences),
      adjustedPValue: adjusted[i],
      betweenRunSd: spread?.sd ?? null,
      detectable: spread?.sd == null ? null : detectableDifference(spread.sd, n),
      moreRuns: needed === null ? null : Math.max(0, needed - n),
      byRun,
      limits,
    };
  });
}

/** The pair of one run, its difference counted from `first`. */
function pairIn(members: readonly Member[], first: string, second: string, section: string | null) {
  const a = members.find(({ receiver }) => receiver === first);
  const b = members.find(({ receiver }) => receiver === second);
  if (!a || !b) return undefined;
  for (const pair of a.assessment.pairs) {
    if (pair.section !== section || pair.difference === null) continue;
    if (pair.first === a.recording && pair.second === b.recording) {
      return { difference: pair.difference, floor: pair.floor };
    }
    if (pair.first === b.recording && pair.second === a.recording) {
      return { difference: -pair.difference, floor: pair.floor };
    }
  }
  return undefined;
}
