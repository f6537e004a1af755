import type { AssessmentRow } from './Assessment';

/** Errors that last so many times longer than another's are no longer of one kind with them. */
const UNLIKE = 4;

/**
 * Rows of one run on one stretch, a limit added where their errors last so unlike that what was read off all of them
 * together fits none: the interval of the slowest is then too narrow, those of the others too wide.
 *
 * @see bench/verdicts.ts for how much
 */
export function withUnlikeMemories<Row extends Pick<AssessmentRow, 'correlationLength' | 'limits'>>(
  rows: readonly Row[],
): readonly Row[] {
  const known = rows.flatMap(({ correlationLength }) => correlationLength ?? []);
  const [least, most] = [Math.min(...known), Math.max(...known)];
  if (known.length < 2 || !(most > UNLIKE * least)) return rows;
  const message = `Errors last ${least.toFixed(0)} m of the way in one recording of the run and ${most.toFixed(0)} m in another: intervals and verdicts are less sure than they say.`;
  return rows.map((row) => ({ ...row, limits: [...row.limits, { reason: 'unlike-memories', message }] }));
}
