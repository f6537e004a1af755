import { fisherExceeded, studentInterval } from '../statistics';
import type { Run } from './summaryRuns';

/** Chance of being told of runs that only scatter. */
const CHANCE = 0.01;

/** Receivers whose runs differ more than their scatter within leads to expect, each once, with where. */
export function runsDiffer(
  runs: readonly Run[],
  receivers: readonly string[],
  sections: readonly (string | null)[],
): { readonly receiver: string; readonly message: string }[] {
  return receivers.flatMap((receiver) => {
    const found = sections.filter((section) => differ(runs, receiver, section));
    if (found.length === 0) return [];
    const where = found.map((section) => (section === null ? 'the whole route' : `“${section}”`)).join(', ');
    return [
      {
        receiver,
        message: `Runs of “${receiver}” differ more than their scatter explains: ${where}. Something changed between them; the intervals over runs allow for it.`,
      },
    ];
  });
}

function differ(runs: readonly Run[], receiver: string, section: string | null): boolean {
  const rows = runs.flatMap(({ byReceiver }) => {
    const member = byReceiver.get(receiver);
    const row = member?.told.get(section)?.rows.get(member.recording);
    return row?.foretold && row.meanAbsolute ? [{ mean: row.meanAbsolute, ...row.foretold }] : [];
  });
  const spread = studentInterval(rows.map(({ mean }) => mean));
  if (!spread?.sd) return false;
  const foretold = rows.reduce((sum, { mean, meanAbsolute }) => sum + (meanAbsolute / mean) ** 2 / rows.length, 0);
  const degrees = rows.reduce((sum, row) => sum + row.degrees, 0);
  const ratio = (spread.sd / spread.mean) ** 2 / foretold;
  return fisherExceeded(ratio, rows.length - 1, degrees) < CHANCE;
}
