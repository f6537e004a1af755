import { batch, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import { draftRoute, InputError, type Recording, type Route, type RouteRecipe } from 'datumline';
import { type Drawing, NOTHING } from './Drawing';
import { type Change, type History, historyOf, inHistory, withEdit } from './History';
import { type LaidOut, layOut } from './layOut';
import type { PlacedPicture } from './PlacedPicture';
import { type ReadDocument, readDocument } from './readDocument';
import { type Remade, type Remaking, remakeLine } from './remakeLine';
import { changesIn, volumesOf } from './volumesOf';
import { walkSteps } from './walkSteps';

/** What is to be there again after a reload. */
export interface KeptLine {
  readonly drawing: Drawing;
  /** Every change since the line was begun, in volumes: all but the last are the same objects as when it was asked for before. */
  readonly volumes: readonly (readonly Change[])[];
  /** So many of the last changes are undone. */
  readonly undone: number;
  readonly picture: PlacedPicture | null;
}

/** What is drawn, and the line built of it. */
export interface LineStore {
  /** What is drawn, as a recipe; null while it has fewer than two points or can't be built. */
  readonly recipe: ReadonlySignal<RouteRecipe | null>;
  /** The route built of it; null likewise. */
  readonly route: ReadonlySignal<Route | null>;
  /** Why it can't be built: the sentence of the `InputError`; null where it can or nothing is drawn. */
  readonly fault: ReadonlySignal<string | null>;
  /** Takes a document in place of what is drawn (undoable): recipe JSON, GeoJSON, GPX or KML. Rejects with the sentence of why not. */
  open(text: string, name: string): Promise<void>;
  /** Plain JSON, but for the file of a picture that is to be kept. */
  saved(): KeptLine;
  /** Takes what was saved, of which the oldest volumes may be missing; the line is empty where it is nothing of the kind. */
  restore(saved: KeptLine): void;
  /** Back to nothing, and nothing to be undone. */
  clear(): void;

  /** Every change since the line was begun, by what was kept also those before the page was opened. */
  readonly history: ReadonlySignal<History>;
  /** What is drawn, or shown while a point is being dragged: ahead of what is built of it. */
  readonly drawing: ReadonlySignal<Drawing>;
  /** The last drawing that could be built, and where each step of it lies. */
  readonly laid: ReadonlySignal<LaidOut | null>;
  /** What the document that was opened last left to be looked at. */
  readonly notes: ReadonlySignal<readonly string[]>;
  /** A picture to draw over. */
  readonly picture: Signal<PlacedPicture | null>;
  /** Another drawing in place of this one; `did` says as a sentence what was done. */
  edit(drawing: Drawing, did: string): void;
  /** A drawing shown for a while, as its point is dragged; null ends that. */
  preview(drawing: Drawing | null): void;
  /** A first line through recordings, to be corrected. Rejects with the sentence of what stands in its way. */
  draft(recordings: readonly Recording[]): Promise<Drawing>;
  /** Another line made of a whole one, which is not yet shown. Rejects with the sentence of why there is none. */
  remake(drawing: Drawing, remaking: Remaking): Promise<Remade>;
  /** One edit back or forth; says which, and null where there is none. */
  undo(): string | null;
  redo(): string | null;
}

/** Milliseconds: a drawing that is built sooner is built at once, with the edit. */
const AT_ONCE = 25;

/** Milliseconds: one that takes longer is not built while its point is still being dragged. */
const WHILE_DRAGGING = 60;

/** Milliseconds of rest before a larger drawing is built. */
const REST = 150;

/** What takes long and is done elsewhere than on the main thread, where the page has a worker. */
export interface LineWork {
  /** As `layOut`; the error has its sentence. */
  layOut(drawing: Drawing): Promise<LaidOut>;
  /** As `readDocument`; the error has its sentence. */
  open(text: string, name: string): Promise<ReadDocument>;
  /** The recipe of `draftRoute`. */
  draft(recordings: readonly Recording[]): Promise<RouteRecipe>;
  /** As `remakeLine`; the error has its sentence. */
  remake(drawing: Drawing, remaking: Remaking): Promise<Remade>;
}

/**
 * A store with nothing drawn.
 *
 * @param work - Where larger drawings are built; without it on the main thread, after a rest.
 */
export function makeLineStore(work?: LineWork): LineStore {
  const history = signal(historyOf());
  const drawing = signal<Drawing>(NOTHING);
  const laid = signal<LaidOut | null>(null);
  const recipe = signal<RouteRecipe | null>(null);
  const route = signal<Route | null>(null);
  const fault = signal<string | null>(null);
  const notes = signal<readonly string[]>([]);
  const picture = signal<PlacedPicture | null>(null);
  const present = () => history.value.drawing;
  let timer: ReturnType<typeof setTimeout> | undefined;
  /** Milliseconds a point, as the last build had it. */
  let cost = 0.02;
  /** What the worker is to build once it has built what it is at. */
  let wanted: Drawing | undefined;
  let busy: 'busy' | 'idle' = 'idle';

  function built(one: Drawing, made: LaidOut | null, why: string | null, milliseconds: number): void {
    cost = milliseconds / Math.max(pointsOf(one), 20);
    batch(() => {
      laid.value = made;
      // while a point is dragged the line is not yet another one
      if (one !== present()) return;
      recipe.value = made && one;
      route.value = made?.route ?? null;
      fault.value = why;
    });
  }

  function buildHere(one: Drawing): void {
    const began = performance.now();
    try {
      const made = pointsOf(one) > 1 ? layOut(one) : null;
      built(one, made, null, performance.now() - began);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      built(one, null, error.message, performance.now() - began);
    }
  }

  async function buildThere({ layOut: ask }: LineWork, one: Drawing): Promise<void> {
    wanted = one;
    if (busy === 'busy') return;
    busy = 'busy';
    for (;;) {
      const next = wanted;
      if (next === undefined) break;
      wanted = undefined;
      const began = performance.now();
      const [made, why] = await ask(next).then(
        (answer) => [answer, null] as const,
        (error: Error) => [null, error.message] as const,
      );
      // what was built here meanwhile is newer
      const isShown = next === drawing.value || wanted !== undefined;
      if (isShown) built(next, made && { ...made, drawing: next }, why, performance.now() - began);
    }
    busy = 'idle';
  }

  function shown(one: Drawing, dragging: 'dragging' | 'done'): void {
    drawing.value = one;
    clearTimeout(timer);
    const expected = cost * pointsOf(one);
    if (expected <= AT_ONCE) {
      wanted = undefined;
      buildHere(one);
    } else if (work) void buildThere(work, one);
    else if (dragging === 'done' || expected <= WHILE_DRAGGING) timer = setTimeout(() => buildHere(one), REST);
  }

  function went(next: History): void {
    history.value = next;
    batch(() => shown(present(), 'done'));
  }

  return {
    ...{ recipe, route, fault, history, drawing, laid, notes, picture },
    async open(text, name) {
      const read = work ? await work.open(text, name) : readDocument(text, name);
      notes.value = read.notes;
      this.edit(read.drawing, `Opened ${name}.`);
    },
    saved() {
      const { drawing: now, changes, present: at } = history.value;
      return {
        ...{ drawing: now, volumes: volumesOf(changes), undone: changes.length - at },
        picture: picture.value?.keep ? picture.value : null,
      };
    },
    restore({ drawing: now, volumes, undone, picture: kept }) {
      if (!Array.isArray(now?.steps)) return this.clear();
      picture.value = kept;
      notes.value = [];
      const changes = changesIn(volumes);
      // of changes that are missing nothing can be done again
      const there = undone > changes.length ? [] : changes;
      went({ drawing: now, changes: there, present: Math.max(0, there.length - undone) });
    },
    clear() {
      picture.value = null;
      notes.value = [];
      went(historyOf());
    },
    edit(next, did) {
      went(withEdit(history.value, next, did));
    },
    preview(one) {
      shown(one ?? present(), one === null ? 'done' : 'dragging');
    },
    draft: async (recordings) => (work ? work.draft(recordings) : draftRoute(recordings).recipe),
    remake: async (one, remaking) => (work ?? { remake: remakeLine }).remake(one, remaking),
    undo() {
      const { changes, present: at } = history.value;
      if (at === 0) return null;
      went(inHistory(history.value, -1));
      return changes[at - 1].did;
    },
    redo() {
      const { changes, present: at } = history.value;
      if (at === changes.length) return null;
      went(inHistory(history.value, 1));
      return changes[at].did;
    },
  };
}

/** How many positions a drawing has, about; laps as often as they are run, and of a line made of others theirs. */
function pointsOf(drawing: Drawing): number {
  let count = 0;
  const laps: number[] = [];
  for (const { path, step } of walkSteps(drawing)) {
    laps.length = path.length - 1;
    const times = laps.reduce((product, lap) => product * lap, 1);
    const others = 'recipe' in step ? [step.recipe] : 'recipes' in step ? step.recipes : [];
    for (const other of others) count += pointsOf(other);
    count += times * ('line' in step ? step.line.length : 1);
    laps.push(step.call === 'laps' ? step.count : step.call === 'outAndBack' ? 2 : 1);
  }
  return count;
}
