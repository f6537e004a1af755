import type { BinRange } from '../assess';
import type { TruthSeconds } from './timedSections';

/** Seconds by which a fix may come later than usual without being missed. */
const LATE = 0.5;

export const AVAILABILITY_RULE = `Available: seconds of the truth at whose end the last fix is no older than the recording’s usual interval (its median, a second at least) and ${LATE} s.`;

/** By second of the truth, 1 where a fix is there. */
export function availableSeconds(times: readonly number[], usual: number, seconds: TruthSeconds): Uint8Array {
  const available = new Uint8Array(seconds.count);
  const oldest = 1000 * (Math.max(1, usual) + LATE);
  let i = -1;
  for (let k = 0; k < seconds.count; k++) {
    const end = seconds.begun + 1000 * (k + 1);
    while (i + 1 < times.length && times[i + 1] < end) i++;
    if (i >= 0 && end - times[i] <= oldest) available[k] = 1;
  }
  return available;
}

/** The share of a stretch's known seconds that have a fix, and the longest run of those that don't. */
export function availabilityOf(available: Uint8Array, { known }: TruthSeconds, { first, end }: BinRange) {
  let all = 0;
  let there = 0;
  let missing = 0;
  let begun = first;
  let longest: { seconds: number; from: number } | null = null;
  for (let k = first; k < end; k++) {
    if (known[k] === 0) continue;
    all++;
    if (available[k] === 1) {
      there++;
      missing = 0;
      continue;
    }
    if (missing++ === 0) begun = k;
    if (missing > (longest?.seconds ?? 0)) longest = { seconds: missing, from: begun };
  }
  return { availability: all > 0 ? there / all : null, longestOutage: longest };
}
