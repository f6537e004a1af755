import { type Drawing, NOTHING } from './Drawing';

/** A state of the drawing, and what was done to come to it, as a sentence. */
interface State {
  readonly drawing: Drawing;
  readonly did: string;
}

/** All states from the first on; `present` is the number of the one that is shown. Never written to. */
export interface History {
  readonly states: readonly State[];
  readonly present: number;
}

/** Of a drawing on which nothing was done yet. */
export function historyOf(drawing: Drawing = NOTHING): History {
  return { states: [{ drawing, did: '' }], present: 0 };
}

/** With an edit more; what was undone before it is forgotten. The same where the edit changed nothing. */
export function withEdit(history: History, drawing: Drawing, did: string): History {
  const { states, present } = history;
  if (drawing === states[present].drawing) return history;
  return { states: [...states.slice(0, present + 1), { drawing, did }], present: present + 1 };
}

/** One edit back (−1) or forth (1); the same where there is none. */
export function inHistory(history: History, by: -1 | 1): History {
  const present = history.present + by;
  return history.states[present] === undefined ? history : { ...history, present };
}
