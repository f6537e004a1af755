import { type History, historyOf } from './History';
import type { PackedHistory } from './packHistory';

/** The history that was packed, but for what had happened before it. */
export function unpackHistory({ first, edits, present }: PackedHistory): History {
  const states = [...historyOf(first).states];
  for (const { did, at, out, put, ...rest } of edits) {
    const { steps } = states[states.length - 1].drawing;
    states.push({ drawing: { ...rest, steps: [...steps.slice(0, at), ...put, ...steps.slice(at + out)] }, did });
  }
  return { states, present };
}
