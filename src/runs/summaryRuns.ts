import { type Assessment, checkAssessment, type WornAt } from '../assess';
import { checkArray, InputError } from '../model';
import { type OnSection, onSection } from './onSection';
import { sameRoute } from './sameRoute';
import type { SummaryWarning } from './TestSummary';

/** A recording that counts, and where its figures stand. */
export interface Member {
  readonly assessment: Assessment;
  /** What the assessment says, by section. */
  readonly told: ReadonlyMap<string | null, OnSection>;
  readonly recording: string;
  readonly receiver: string;
  readonly placement: string | null;
}

export interface Run {
  readonly name: string;
  readonly members: readonly Member[];
  readonly byReceiver: ReadonlyMap<string, Member>;
}

/** Refuses anything but assessments of one route, at least one. */
export function checkAssessments(assessments: readonly Assessment[]): void {
  checkArray(assessments, 'assessments');
  if (assessments.length === 0) {
    throw new InputError({
      reason: 'too-few',
      argument: 'assessments',
      rule: 'at least 1 assessment',
      value: assessments,
    });
  }
  assessments.forEach((assessment: Assessment, i) => {
    const argument = `assessments[${i}]`;
    checkAssessment(assessment, argument);
    if (!sameRoute(assessment, assessments[0])) {
      throw new InputError({
        reason: 'misplaced',
        argument: `${argument}.route`,
        rule: 'the route of the first assessment',
        value: assessment.route.name,
        hint: 'Runs over different routes have no stretch in common',
      });
    }
  });
}

/** The runs that the assessments hold, what was left out of them named. */
export function runsOf(
  assessments: readonly Assessment[],
  warn: (reason: SummaryWarning['reason'], message: string, about: Partial<SummaryWarning>) => void,
): Run[] {
  const names = new Set<string>();
  return assessments.flatMap((assessment) => {
    const told = onSection(assessment);
    const stated = [...new Set(assessment.recordings.map(({ run }) => run))];
    return stated.flatMap((run): Run[] => {
      let name = run ?? `run ${names.size + 1}`;
      // Two assessments that call their run alike are still two runs: nobody assesses one run in two halves.
      for (let again = 2; names.has(name); again++) name = `${run ?? 'run'} (${again})`;
      names.add(name);
      const byReceiver = new Map<string, Member>();
      for (const recording of assessment.recordings) {
        if (recording.run !== run) continue;
        const receiver = recording.receiver ?? recording.name;
        const again = byReceiver.has(receiver);
        if (!recording.included || again) {
          const why = again ? 'The run has another recording of this receiver.' : recording.leftOut!.message;
          warn('left-out', `“${recording.name}” was left out. ${why}`, { receiver, run: name });
          continue;
        }
        const { name: named, placement } = recording;
        byReceiver.set(receiver, { assessment, told, recording: named, receiver, placement });
      }
      return byReceiver.size > 0 ? [{ name, members: [...byReceiver.values()], byReceiver }] : [];
    });
  });
}

/** Where two receivers were worn in the runs that have both. */
export function placements(runs: readonly Run[], first: string, second: string): WornAt[] {
  return runs.flatMap(({ byReceiver }): WornAt[] => {
    const [a, b] = [byReceiver.get(first), byReceiver.get(second)];
    return a && b ? [{ first: a.placement, second: b.placement }] : [];
  });
}
