import {
  type Assessment,
  type AssessOptions,
  areasFromGeoJson,
  assess,
  combine,
  type JudgeByTimeOptions,
  judgeByTime,
  readLines,
  type TestSummary,
  type TimedAssessment,
} from 'datumline';
import { reportHtml } from 'datumline/report';
import type { GeoJSON } from 'geojson';
import { parseDocument } from './parseDocument';
import { recordingLabel } from './recordingLabel';
import type { GivenFile, Plan } from './Task';

/** What came of a plan. */
export interface Judged {
  readonly assessments: readonly Assessment[];
  readonly summary: TestSummary | undefined;
  readonly byTime: readonly TimedAssessment[];
  /** The report as HTML. */
  readonly report: string;
}

/** Judges every run as the command does, then what the runs say together; `progress` says how far it is. */
export async function judgePlan(plan: Plan, progress: (sentence: string) => Promise<void>): Promise<Judged> {
  const { route, runs, companions, surroundings, stated, leftOut } = plan;
  const { baseline, ...options } = stated.options ?? {};
  const shared: AssessOptions = {
    ...options,
    ...(companions.decoy && { decoy: await lineIn(companions.decoy) }),
    ...(companions.centreline && { centreline: await lineIn(companions.centreline) }),
    ...(companions.areas && { areas: areasFromGeoJson((await documentIn(companions.areas)) as GeoJSON) }),
  };
  const assessments: Assessment[] = [];
  const byTime: TimedAssessment[] = [];
  for (const [i, { name: run, recordings, exclusions, truth }] of runs.entries()) {
    const of = runs.length === 1 ? '' : `, run ${i + 1} of ${runs.length}`;
    await progress(`Placing and judging ${count(recordings.length, 'recording')}${of}`);
    const entries = recordings.map(({ recording, receiver, placement }, k) => ({
      recording: { ...recording, name: recordingLabel(recordings[k], recordings) },
      ...{ receiver, placement, run },
    }));
    const compared = recordings.some(({ receiver }) => receiver === baseline) ? { baseline } : {};
    if (truth) {
      const { leverArm, equivalence } = options;
      const timed: JudgeByTimeOptions = { route, leverArm, equivalence, ...compared };
      byTime.push(judgeByTime(truth.recording, entries, timed));
    }
    const exclude = [...(stated.exclusions ?? []), ...exclusions];
    assessments.push(assess(route, entries, { ...shared, exclude, ...compared }));
  }
  const together = { ...(baseline === undefined ? {} : { baseline }), ...(byTime.length > 0 ? { byTime } : {}) };
  if (assessments.length > 1) await progress('Joining the runs');
  const summary = assessments.length > 1 ? combine(assessments, together) : undefined;
  await progress('Writing the report');
  const report = reportHtml(assessments, {
    title: stated.name,
    summary,
    byTime,
    looks: stated.looks,
    dates: Object.fromEntries(runs.flatMap(({ name, date }) => (date === undefined ? [] : [[name, date]]))),
    leftOut,
    ...(surroundings && { surroundings }),
  });
  return { assessments, summary, byTime, report };
}

const documentIn = async ({ path, file }: GivenFile) => parseDocument(await file.text(), path);

/** The one line in a file; the edges of a corridor, as our own writers add them, aside. */
async function lineIn({ path, file }: GivenFile) {
  const lines = readLines(new Uint8Array(await file.arrayBuffer())).filter(
    ({ name }) => !/, (left|right) edge$/.test(name),
  );
  if (lines.length !== 1) throw new Error(`${path}: expected one line, found ${lines.length}`);
  return lines[0].positions;
}

const count = (n: number, noun: string) => `${n} ${noun}${n === 1 ? '' : 's'}`;
