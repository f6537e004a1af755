import type { IssueLog } from './IssueLog';
import { parseFinite } from './parseDecimal';

/** The number that `text` writes; NaN where it writes none, which is noted unless it is blank. */
export function parseNoted(
  text: string,
  reason: 'unreadable-height' | 'unreadable-quality',
  issues: IssueLog,
  place: () => string,
): number {
  const value = parseFinite(text);
  if (Number.isNaN(value) && text.trim() !== '') issues.note(reason, place);
  return value;
}
