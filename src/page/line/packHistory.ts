import type { RecipeStep } from 'datumline';
import type { Drawing } from './Drawing';
import type { History } from './History';

/** What an edit did to the steps: of what was there so many from `at` on gave way to others. */
export interface PackedEdit extends Omit<Drawing, 'steps'> {
  readonly did: string;
  readonly at: number;
  readonly out: number;
  readonly put: readonly RecipeStep[];
}

/** A history that takes the room of what was changed, not of every state: plain JSON. */
export interface PackedHistory {
  readonly first: Drawing;
  readonly edits: readonly PackedEdit[];
  readonly present: number;
}

/** Edits that are kept: more than anybody takes back one by one. */
const MOST = 200;

/** The last edits of a history, {@link MOST} at most besides those undone that could be done again. */
export function packHistory({ states, present }: History): PackedHistory {
  const from = Math.max(0, present - MOST);
  const kept = states.slice(from, present + MOST + 1);
  const edits = kept.slice(1).map(({ drawing: { steps, ...rest }, did }, i): PackedEdit => {
    const before = kept[i].drawing.steps;
    const most = Math.min(before.length, steps.length);
    let at = 0;
    // steps that an edit leaves alone are the same objects
    while (at < most && before[at] === steps[at]) at++;
    let end = 0;
    while (end < most - at && before[before.length - 1 - end] === steps[steps.length - 1 - end]) end++;
    return { ...rest, did, at, out: before.length - end - at, put: steps.slice(at, steps.length - end) };
  });
  return { first: kept[0].drawing, edits, present: present - from };
}
