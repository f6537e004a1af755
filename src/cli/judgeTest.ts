import { type Assessment, assessFigures, type CarriedRecording } from '../assess';
import { combine, runFigures } from '../runs';
import { judgeByTime, type TimedAssessment } from '../truth';
import { checkBaseline } from './checkBaseline';
import type { LineTask } from './LineTask';
import { readTracks } from './readTracks';
import { readTruth } from './readTruth';
import type { PlannedRun, TestPlan } from './TestPlan';

/** A run and what was found in it. */
interface JudgedRun {
  readonly run: string | null;
  readonly entries: readonly CarriedRecording[];
  readonly assessment: Assessment;
  readonly timed: TimedAssessment | undefined;
}

/** What `assess --ndjson` answers: all that was found in the runs, each list with the run, or what `combine` needs of it. */
export async function judgeTest(
  { route, runs, baseline }: TestPlan,
  { figures, number }: Pick<LineTask, 'figures' | 'number'>,
): Promise<{ readonly [list: string]: unknown; readonly issues: readonly object[] }> {
  if (baseline !== undefined) {
    const stated = runs.flatMap((run) => run.files.map(({ receiver, file }) => receiver ?? file));
    checkBaseline(baseline, stated, { files: [`line ${number}`] });
  }
  const judged: JudgedRun[] = [];
  for (const run of runs) judged.push(await judgeRun(route, run, baseline));
  const assessments = judged.map(({ assessment }) => assessment);
  const issues = judged.flatMap(({ run, entries }) =>
    entries.flatMap(({ recording }) => recording.issues.map((issue) => ({ run, recording: recording.name, ...issue }))),
  );
  if (figures === 'for combine') return { figures: assessments.map(runFigures), issues };
  const byTime = judged.flatMap(({ timed }) => timed ?? []);
  const given = { ...(baseline !== undefined && { baseline }), ...(byTime.length > 0 && { byTime }) };
  const summary = judged.length > 1 ? combine(assessments, given) : undefined;
  const ofRuns = <T extends object>(list: (assessment: Assessment) => readonly T[]) =>
    judged.flatMap(({ run, assessment }) => list(assessment).map((one) => ({ run, ...one })));
  const timed = judged.flatMap(({ run, timed: found }) =>
    found ? [{ run, rows: found.rows, pairs: found.pairs, warnings: found.warnings }] : [],
  );
  return {
    rows: ofRuns(({ rows }) => rows),
    pairs: ofRuns(({ pairs }) => pairs),
    order: ofRuns(({ order }) => order),
    excursions: ofRuns(({ excursions }) => excursions),
    ...(runs.some(({ options }) => options.areas) && { passages: ofRuns(({ passages }) => passages) }),
    ...(summary && { summary }),
    ...(timed.length > 0 && { timed }),
    warnings: ofRuns(({ warnings }) => warnings),
    issues,
    hash: (summary ?? assessments[0]).method.hash,
  };
}

async function judgeRun(
  route: TestPlan['route'],
  { name, files, truth, options }: PlannedRun,
  baseline: string | undefined,
): Promise<JudgedRun> {
  const entries: CarriedRecording[] = [];
  for (const { receiver, placement, ...file } of files) {
    for (const recording of await readTracks(file, 'of a line'))
      entries.push({ recording, receiver, placement, run: name });
  }
  const known = truth && (await readTruth(truth, 'of a line'));
  const carried = entries.some(({ receiver, recording }) => (receiver ?? recording.name) === baseline);
  const compared = baseline !== undefined && carried ? { baseline } : {};
  const { leverArm, equivalence } = options;
  return {
    run: name ?? null,
    entries,
    assessment: assessFigures(route, entries, { ...options, ...compared }),
    timed: known && judgeByTime(known, entries, { route, leverArm, equivalence, ...compared }),
  };
}
