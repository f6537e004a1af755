import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import { InputError, type Recording } from 'datumline';
import type { GeoJSON, Position } from 'geojson';
import type { Drawing, StepPath } from './Drawing';
import { describeStep } from './describeStep';
import { type Handles, handlesOf } from './handlesOf';
import { isFixed } from './isFixed';
import type { LineStore } from './LineStore';
import { removePoint } from './removePoint';
import { stepAt } from './stepsIn';

/** What a click on the map does. */
export type Tool = 'look' | 'draw' | 'change' | 'cut' | 'mark' | 'area' | 'follow' | 'place';

/** A stretch of the line, metres along-track. */
export interface Shown {
  readonly from: number;
  readonly to: number;
}

/** What the map and the lists beside it share. */
export interface Desk {
  readonly store: LineStore;
  readonly recordings: ReadonlySignal<readonly Recording[]>;
  readonly surroundings: ReadonlySignal<GeoJSON | null>;
  readonly openSurroundings: (file: File) => Promise<void>;
  readonly say: (sentence: string) => void;
  readonly tool: Signal<Tool>;
  readonly selected: Signal<StepPath | null>;
  /** A warning's stretch that is to be seen. */
  readonly shown: Signal<Shown | null>;
  /** Where the map is to go; each time another object. */
  readonly goTo: Signal<{ readonly to: 'line' | 'recordings' | Position } | null>;
  /** Corners of an area that is being drawn. */
  readonly corners: Signal<readonly Position[]>;
  /** The place of the picture that waits for its place on the map. */
  readonly pin: Signal<{ readonly x: number; readonly y: number } | null>;
  /** Where the middle of the map is. */
  readonly middle: Signal<Position>;
  /** Metres between the lines of the map's grid. */
  readonly spacing: Signal<number>;
  readonly handles: ReadonlySignal<Handles>;
  readonly fixed: ReadonlySignal<boolean>;
  /** Takes out the step that is open in the list. */
  removeSelected(): void;
  /** An edit, said; or why there is none. */
  edit(make: () => { readonly drawing: Drawing; readonly path?: StepPath }, did: string): void;
}

/** A desk with nothing on it. */
export function makeDesk(
  props: Pick<Desk, 'store' | 'recordings' | 'surroundings' | 'openSurroundings' | 'say'>,
): Desk {
  const { store, say } = props;
  const selected = signal<StepPath | null>(null);
  return {
    ...props,
    ...{ selected, tool: signal<Tool>('draw'), shown: signal(null), goTo: signal(null), corners: signal([]) },
    ...{ pin: signal(null), middle: signal<Position>([0, 0]), spacing: signal(100) },
    handles: computed(() => {
      const { drawing, laid } = store;
      return handlesOf(
        drawing.value,
        laid.value?.drawing.steps.length === drawing.value.steps.length ? laid.value : null,
      );
    }),
    fixed: computed(() => isFixed(store.drawing.value)),
    removeSelected() {
      const path = selected.peek();
      const drawing = store.drawing.peek();
      const step = path && stepAt(drawing, path);
      if (!path || !step) return say('No row of the list is open.');
      this.edit(() => ({ drawing: removePoint(drawing, { path }) }), `Taken out: ${describeStep(step)}.`);
      selected.value = stepAt(store.drawing.peek(), path) ? path : null;
    },
    edit(make, did) {
      try {
        const { drawing, path } = make();
        if (drawing === store.drawing.peek()) return;
        store.edit(drawing, did);
        if (path !== undefined) selected.value = path;
        say(store.fault.value ? `${did} But now it cannot be built: ${store.fault.value}` : did);
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        say(error.message);
      }
    },
  };
}
