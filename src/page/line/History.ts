import type { RouteOptions } from 'datumline';
import { type Drawing, NOTHING } from './Drawing';
import { type Exchange, exchanged, exchangeOf } from './Exchange';

/** What an edit changed, to be taken back and made again; and what was done, as a sentence. */
export interface Change {
  readonly did: string;
  readonly steps: Exchange;
  /** Where they changed. */
  readonly options?: { readonly out: RouteOptions; readonly put: RouteOptions };
}

/** What is drawn, and every change that came before it or was undone. Takes the room of what changed. Never written to. */
export interface History {
  readonly drawing: Drawing;
  readonly changes: readonly Change[];
  /** So many of them are made; those after are undone. */
  readonly present: number;
}

/** Of a drawing on which nothing was done yet. */
export function historyOf(drawing: Drawing = NOTHING): History {
  return { drawing, changes: [], present: 0 };
}

/** With an edit more; what was undone before it is forgotten. The same where the edit changed nothing. */
export function withEdit(history: History, drawing: Drawing, did: string): History {
  const { drawing: before, changes, present } = history;
  if (drawing === before) return history;
  const change: Change = {
    ...{ did, steps: exchangeOf(before.steps, drawing.steps) },
    ...(before.options === drawing.options ? {} : { options: { out: before.options, put: drawing.options } }),
  };
  return { drawing, changes: [...changes.slice(0, present), change], present: present + 1 };
}

/** One edit back (−1) or forth (1); the same where there is none. */
export function inHistory(history: History, by: -1 | 1): History {
  const { drawing, changes, present } = history;
  const change = changes[by === 1 ? present : present - 1];
  if (change === undefined) return history;
  const steps = exchanged(drawing.steps, change.steps, by === 1 ? 'forth' : 'back');
  const options = change.options?.[by === 1 ? 'put' : 'out'] ?? drawing.options;
  return { drawing: { ...drawing, options, steps }, changes, present: present + by };
}
