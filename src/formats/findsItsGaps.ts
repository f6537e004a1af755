import type { Recording } from '../model';
import { findBreaks } from './findBreaks';
import { IssueLog } from './IssueLog';

/**
 * Whether a reader that finds gaps by itself gives the recording those it has. Where it would find more, as of a
 * recording that was cut to its slow part or made by hand, a document has to say that its gaps are all there are.
 */
export function findsItsGaps({ lon, lat, time, gapBefore }: Recording): boolean {
  if (time === undefined) return true;
  const found = gapBefore.slice();
  for (let i = 1; i < time.length; i++) if (time[i] < time[i - 1]) found[i] = 1;
  findBreaks({ lon, lat, time, gapBefore: found }, new IssueLog());
  return found.every((gap, i) => gap === gapBefore[i]);
}
