import {
  type Assessment,
  type AssessOptions,
  areasFromGeoJson,
  assessAsync,
  combineAsync,
  type JudgeByTimeOptions,
  judgeByTime,
  type Recording,
  readLines,
  type Snapped,
  type TestSummary,
  type TimedAssessment,
  type Progress as WorkProgress,
} from 'datumline';
import { reportHtmlAsync } from 'datumline/report';
import type { GeoJSON } from 'geojson';
import { parseDocument } from './parseDocument';
import { recordingLabel } from './recordingLabel';
import type { GivenFile, Plan, Progress } from './Task';

/** What came of a plan. */
export interface Judged {
  readonly assessments: readonly Assessment[];
  readonly summary: TestSummary | undefined;
  readonly byTime: readonly TimedAssessment[];
  /** The report as HTML. */
  readonly report: string;
}

/** How long the report of a recording takes beside the judging of it, and what the runs say together beside all of that. */
const REPORT = 0.3;
const TOGETHER = 0.02;

/** What part of the judging of a run each kind of its work is. */
const phases: { readonly [what in WorkProgress['what']]?: readonly [begin: number, end: number] } = {
  recordings: [0, 0.6],
  rows: [0.6, 0.9],
  pairs: [0.9, 1],
};

/**
 * Judges every run as the command does, then what the runs say together.
 *
 * @param tell - hears how far it is
 * @param signal - leaves it
 * @param placedOf - where a recording was placed already
 */
export async function judgePlan(
  plan: Plan,
  tell: (progress: Progress) => void,
  signal?: AbortSignal,
  placedOf: (recording: Recording) => Snapped | undefined = () => undefined,
): Promise<Judged> {
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
  const every = runs.reduce((sum, { recordings }) => sum + recordings.length, 0);
  const whole = every * (1 + REPORT + TOGETHER);
  let judged = 0;
  for (const [i, { name: run, recordings, exclusions, truth }] of runs.entries()) {
    const of = runs.length === 1 ? '' : `, run ${i + 1} of ${runs.length}`;
    const sentence = `Placing and judging ${count(recordings.length, 'recording')}${of}`;
    const far = (share: number) => tell({ sentence, share: (judged + share * recordings.length) / whole });
    far(0);
    const entries = recordings.map(({ recording, receiver, placement }, k) => ({
      recording: { ...recording, name: recordingLabel(recordings[k], recordings) },
      ...{ receiver, placement, run, snapped: placedOf(recording) },
    }));
    const compared = recordings.some(({ receiver }) => receiver === baseline) ? { baseline } : {};
    if (truth) {
      const { leverArm, equivalence } = options;
      const timed: JudgeByTimeOptions = { route, leverArm, equivalence, ...compared };
      byTime.push(judgeByTime(truth.recording, entries, timed));
    }
    const exclude = [...(stated.exclusions ?? []), ...exclusions];
    const onProgress = ({ done, of, what }: WorkProgress) => {
      const [begin, end] = phases[what] ?? [0, 0];
      if (of) far(begin + ((end - begin) * done) / of);
    };
    assessments.push(await assessAsync(route, entries, { ...shared, exclude, ...compared, onProgress, signal }));
    judged += recordings.length;
  }
  const together = {
    signal,
    ...(baseline === undefined ? {} : { baseline }),
    ...(byTime.length > 0 ? { byTime } : {}),
  };
  if (assessments.length > 1) tell({ sentence: 'Joining the runs', share: judged / whole });
  const summary = assessments.length > 1 ? await combineAsync(assessments, together) : undefined;
  const before = every * (1 + TOGETHER);
  const report = await reportHtmlAsync(assessments, {
    signal,
    onProgress: ({ done, of, what }) => {
      if (what !== 'parts' || !of) return;
      tell({ sentence: 'Writing the report', share: (before + (every * REPORT * done) / of) / whole });
    },
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
