import type { Recording, Route, RouteRecipe, TestExclusion, TestFile } from 'datumline';
import type { Feature, GeoJSON } from 'geojson';
import type { LaidOut } from '../line/layOut';
import type { ReadDocument } from '../line/readDocument';
import type { Remade, Remaking } from '../line/remakeLine';

/** A file that was dropped, chosen, or lay in an archive. */
export interface GivenFile {
  /** With folders where they are known: `run 2/alder.gpx`. */
  readonly path: string;
  readonly file: Blob;
}

/** What a file was found to be, by its content. */
export type FileContent =
  | { readonly kind: 'recordings'; readonly recordings: readonly Recording[]; readonly zone: 'stated' | 'given' }
  | { readonly kind: 'line'; readonly text: string }
  | { readonly kind: 'test'; readonly test: TestFile }
  | { readonly kind: 'areas' }
  | { readonly kind: 'surroundings' }
  | { readonly kind: 'archive'; readonly files: readonly GivenFile[] }
  | { readonly kind: 'fault'; readonly sentence: string; readonly asks: 'zone' | 'nothing' };

/** How much of the line a recording covers, and what there is to say where it can't be judged. */
export interface Fit {
  /** Share of the line, 0–1. */
  readonly coverage: number;
  readonly remark: string | null;
}

/** One recording of a run, and the file it is from. */
export interface PlannedRecording {
  readonly recording: Recording;
  readonly receiver: string;
  readonly placement?: string;
  readonly given: GivenFile;
  readonly zone?: string;
  readonly track?: string;
  readonly notes?: string;
}

/** One time that the line was travelled. */
export interface PlannedRun {
  readonly name: string;
  readonly date?: string;
  readonly notes?: string;
  readonly exclusions: readonly TestExclusion[];
  readonly recordings: readonly PlannedRecording[];
  readonly truth?: { readonly recording: Recording; readonly given: GivenFile };
}

/** Files beside the recordings that a test may name. */
export type CompanionKey = 'decoy' | 'centreline' | 'areas';

/** Everything a report is made of. */
export interface Plan {
  /** Another one for every other plan. */
  readonly number: number;
  readonly route: Route;
  readonly runs: readonly PlannedRun[];
  readonly companions: { readonly [key in CompanionKey]?: GivenFile };
  /** What is drawn under the plan. */
  readonly surroundings: GeoJSON | null;
  /** What else the test file states: name, options, looks, exclusions of every run, notes. */
  readonly stated: Pick<TestFile, 'name' | 'options' | 'looks' | 'exclusions' | 'notes'>;
  /** What could not be read, each as `NAME: why`. */
  readonly leftOut: readonly string[];
}

/** What a worker is handed once, and knows by its number from then on. */
export interface Lent<T> {
  readonly key: number;
  /** The first time. */
  readonly value?: T;
}

/** A plan as it is handed to a worker, which has most of it already. */
export interface LentPlan extends Omit<Plan, 'route' | 'runs' | 'surroundings'> {
  readonly route: Lent<Route>;
  readonly surroundings: Lent<GeoJSON> | null;
  readonly runs: readonly (Omit<PlannedRun, 'recordings'> & {
    readonly recordings: readonly (Omit<PlannedRecording, 'recording'> & { readonly recording: Lent<Recording> })[];
  })[];
}

/** How recordings are saved. */
export type Extent = 'cut' | 'whole';

/** What the page asks of its worker, and what it answers. */
export interface Tasks {
  readonly read: { readonly input: GivenFile & { readonly zone?: string }; readonly answer: FileContent };
  readonly fit: {
    readonly input: { readonly route: Lent<Route>; readonly recording: Lent<Recording> };
    readonly answer: Fit;
  };
  /** Forgets what was lent and is no longer open. */
  readonly giveBack: { readonly input: readonly number[]; readonly answer: undefined };
  readonly layOut: { readonly input: RouteRecipe; readonly answer: LaidOut };
  readonly draft: { readonly input: readonly Recording[]; readonly answer: RouteRecipe };
  /** Another line of a whole one. */
  readonly remake: {
    readonly input: { readonly drawing: RouteRecipe; readonly remaking: Remaking };
    readonly answer: Remade;
  };
  /** GeoJSON, whatever is in it. */
  readonly surroundings: { readonly input: GivenFile; readonly answer: GeoJSON };
  readonly open: { readonly input: { readonly text: string; readonly name: string }; readonly answer: ReadDocument };
  /** Judges while nobody waits yet, so that who asks then waits for less. */
  readonly judgeAhead: { readonly input: LentPlan; readonly answer: undefined };
  readonly judge: { readonly input: LentPlan; readonly answer: { readonly html: string } };
  readonly save: {
    readonly input: { readonly plan: LentPlan; readonly extent: Extent };
    readonly answer: { readonly zip: Blob; readonly sentence: string };
  };
}

/** From the page to the worker. */
export interface Question<Name extends keyof Tasks = keyof Tasks> {
  readonly number: number;
  readonly task: Name;
  readonly input: Tasks[Name]['input'];
}

/** How far a task is. */
export interface Progress {
  readonly sentence: string;
  /** Share of the work that is done, 0–1; never less than before. */
  readonly share: number;
}

/** From the worker to the page: how far it is, parts of what it found, then what it found or why it couldn't. */
export type Reply =
  | { readonly number: number; readonly progress: Progress }
  /** Features of the answer that are handed over before it: all at once would keep the page waiting. */
  | { readonly number: number; readonly features: readonly Feature[] }
  | { readonly number: number; readonly answer: unknown }
  | { readonly number: number; readonly fault: string };
