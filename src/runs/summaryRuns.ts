import { group } from 'd3-array';
import type { Assessment, WornAt } from '../assess';
import { InputError, listOf, type Steps } from '../model';
import type { AssessedFigures } from './AssessedFigures';
import { checkFigures } from './checkFigures';
import { type OnSection, onSection } from './onSection';
import { takenFigures } from './runFigures';
import { sameRoute } from './sameRoute';

/** A recording that counts in a run. */
export interface Carried {
  readonly recording: string;
  readonly receiver: string;
  readonly placement: string | null;
}

/** One that was placed on the route, and where its figures stand. */
export interface Member extends Carried {
  readonly assessment: AssessedFigures;
  /** What the assessment says, by section. */
  readonly told: ReadonlyMap<string | null, OnSection>;
}

export interface Run<One extends Carried = Member> {
  readonly name: string;
  readonly members: readonly One[];
  readonly byReceiver: ReadonlyMap<string, One>;
}

/** The figures of assessments, at least one; anything else is refused. */
export function* figuresOf(given: Iterable<Assessment | AssessedFigures>): Steps<AssessedFigures[]> {
  const assessments = listOf(given, 'assessments');
  if (assessments.length === 0) {
    throw new InputError({
      reason: 'too-few',
      argument: 'assessments',
      rule: 'at least 1 assessment',
      value: assessments,
    });
  }
  const figures: AssessedFigures[] = [];
  for (const [i, assessment] of assessments.entries()) {
    checkFigures(assessment, `assessments[${i}]`);
    figures.push(takenFigures(assessment));
    yield { done: figures.length, of: assessments.length, what: 'assessments' };
  }
  return figures;
}

/** Refuses figures that are not all of one route. */
export function checkOneRoute(figures: readonly AssessedFigures[]): void {
  for (const [i, one] of figures.entries()) {
    if (sameRoute(one, figures[0])) continue;
    throw new InputError({
      reason: 'misplaced',
      argument: `assessments[${i}].route`,
      rule: 'the route of the first assessment',
      value: one.route.name,
      hint: 'Runs over different routes have no stretch in common',
    });
  }
}

/** The runs that the assessments hold, what was left out of them named. */
export function* runsOf(assessments: readonly AssessedFigures[], warn: Warn): Steps<Run[]> {
  const documents: { recordings: AssessedFigures['recordings']; about: Omit<Member, keyof Carried> }[] = [];
  for (const assessment of assessments) {
    documents.push({ recordings: assessment.recordings, about: { assessment, told: onSection(assessment) } });
    yield;
  }
  return namedRuns(documents, warn);
}

type Warn = (reason: 'left-out', message: string, about: { readonly receiver: string; readonly run: string }) => void;

/** A recording as a document states it. */
interface Stated {
  readonly name: string;
  readonly receiver: string | null;
  readonly placement: string | null;
  readonly run: string | null;
  readonly leftOut: { readonly message: string } | null;
}

/** The runs that documents hold, each with a name of its own; `about` is what is known of a document's recordings together. */
export function namedRuns<About extends object>(
  documents: readonly { readonly recordings: readonly Stated[]; readonly about: About }[],
  warn: Warn,
): Run<Carried & About>[] {
  const names = new Set<string>();
  /** By what a run is called, the last number that told it from others. */
  const numbers = new Map<string, number>();
  return documents.flatMap(({ recordings, about }) => {
    return Array.from(group(recordings, ({ run }) => run)).flatMap(([run, members]): Run<Carried & About>[] => {
      let name = run ?? `run ${names.size + 1}`;
      // Two assessments that call their run alike are still two runs: nobody assesses one run in two halves.
      const called = run ?? 'run';
      for (let again = (numbers.get(called) ?? 1) + 1; names.has(name); again++) {
        name = `${called} (${again})`;
        numbers.set(called, again);
      }
      names.add(name);
      const byReceiver = new Map<string, Carried & About>();
      for (const recording of members) {
        const receiver = recording.receiver ?? recording.name;
        const again = byReceiver.has(receiver);
        if (recording.leftOut !== null || again) {
          const why = recording.leftOut?.message ?? 'The run has another recording of this receiver.';
          warn('left-out', `“${recording.name}” was left out. ${why}`, { receiver, run: name });
          continue;
        }
        const { name: named, placement } = recording;
        byReceiver.set(receiver, { ...about, recording: named, receiver, placement });
      }
      return byReceiver.size > 0 ? [{ name, members: [...byReceiver.values()], byReceiver }] : [];
    });
  });
}

/** Where two receivers were worn in the runs that have both. */
export function placements(runs: readonly Run<Carried>[], first: string, second: string): WornAt[] {
  return runs.flatMap(({ byReceiver }): WornAt[] => {
    const [a, b] = [byReceiver.get(first), byReceiver.get(second)];
    return a && b ? [{ first: a.placement, second: b.placement }] : [];
  });
}
