import type { SnapIssue } from '../model';
import type { FixTrack } from './FixTrack';

/** Of so many fixes one may have a time that is not its own before that is worth a word. */
const WORTH_A_WORD = 100;

/** What is said of a clock that stands still or runs back: fixes written down twice don't count. */
export function clockIssues({ mistrusted, lon, lat, count }: FixTrack): SnapIssue[] {
  if (mistrusted === undefined) return [];
  let fixes = 0;
  for (let i = 1; i < count; i++) {
    if (mistrusted[i] === 1 && (lon[i] !== lon[i - 1] || lat[i] !== lat[i - 1])) fixes++;
  }
  if (fixes * WORTH_A_WORD < count) return [];
  const message = `Of its ${count} fixes, ${fixes} share a time with another or have an earlier one than those before: order and displacement place them, not the clock.`;
  return [{ reason: 'untrusted-clock', message, fixes }];
}
