import { basename, join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import { type Assessment, assess, type CarriedRecording } from '../assess';
import type { Recording } from '../model';
import { reportHtml, timedToCsv, toCsv, toGeoJson } from '../report';
import { prepareRoute } from '../route';
import { combine, type TestSummary } from '../runs';
import { judgeByTime, type TimedAssessment } from '../truth';
import { answerLines } from './answerLines';
import type { CommandArguments } from './CommandArguments';
import { CommandError, wrongUsage } from './CommandError';
import { checkBaseline } from './checkBaseline';
import { describeAssessment } from './describeAssessment';
import { describeSummary } from './describeSummary';
import { describeTimed, describeTimedRuns } from './describeTimed';
import { doubtRoute } from './doubtRoute';
import { sentenceOf } from './explain';
import { type CarriedRun, fixTable } from './fixTable';
import { interruptible } from './interruptible';
import { pictureFiles } from './pictureFiles';
import { placeFiles } from './placeFiles';
import { print } from './print';
import { readAreas } from './readAreas';
import { readBytes } from './readBytes';
import { looksLikeJson, readJson } from './readJson';
import { readRoute } from './readRoute';
import { readSurroundings } from './readSurroundings';
import { readTest } from './readTest';
import { readTruth } from './readTruth';
import { showProgress } from './showProgress';
import type { PlannedRun, TestPlan } from './TestPlan';
import { tell } from './tell';
import { tellCutOff } from './tellCutOff';
import { wideTable } from './wideTable';
import { writeFiles } from './writeFiles';

/** `datumline assess ROUTE RECORDING... --out DIR` and `datumline assess TEST.json --out DIR`. */
export async function assessCommand(given: CommandArguments): Promise<'all' | 'not all'> {
  const { files: named, out, ndjson, threads, figures } = given;
  if (ndjson === 'each line') {
    const refused = [given.baseline, given.truth, given.areas, given.surroundings];
    if (named.length > 0 || refused.some((value) => value !== undefined)) {
      const words = 'no files, no --baseline, no --truth, no --areas and no --surroundings';
      throw wrongUsage(`assess --ndjson takes ${words}`, 'assess');
    }
    return answerLines('assess', given);
  }
  if (figures === 'for combine') throw wrongUsage('--figures goes with --ndjson', 'assess');
  if (named.length === 0) throw wrongUsage('assess takes a ROUTE and RECORDINGs, or one TEST.json', 'assess');
  if (out === undefined) throw wrongUsage('assess needs --out DIR, the folder to write to', 'assess');
  const plan = await readPlan(given);
  const baseline = given.baseline ?? plan.baseline;
  const stated = plan.runs.flatMap((run) => run.files.map(({ receiver }) => receiver));
  if (baseline !== undefined && stated.every((receiver) => receiver !== undefined)) {
    checkBaseline(baseline, stated, given);
  }

  // a truth that can't be read is told before anything is placed
  const truths: (Recording | undefined)[] = [];
  let cutOff = false;
  for (const { truth } of plan.runs) {
    const read = truth && (await readTruth(truth));
    if (read) cutOff = tellCutOff(truth.file, [read]) || cutOff;
    truths.push(read);
  }
  const total = plan.runs.reduce((sum, { files }) => sum + files.length, 0);
  let before = 0;
  const assessments: Assessment[] = [];
  const carried: CarriedRun[] = [];
  const leftOut: string[] = [];
  const leave = (name: string, why: string) => {
    tell(`left out: ${name}: ${why}`);
    // a report is passed on: it tells the file, not the folder
    leftOut.push(`${basename(name)}: ${why}`);
  };
  const timed: TimedRun[] = [];
  for (const [r, run] of plan.runs.entries()) {
    const placed = await placeFiles(plan.route, run.files, threads, (done) =>
      showProgress(`${before + done} of ${total} recordings read and placed`),
    );
    before += run.files.length;
    const entries = placed.flatMap((file, i): CarriedRecording[] => {
      if ('leftOut' in file) {
        leave(run.files[i].file, file.leftOut);
        return [];
      }
      const { file: name, receiver, placement } = run.files[i];
      const recordings = file.tracks.map(({ recording }) => recording);
      cutOff = tellCutOff(name, recordings) || cutOff;
      return file.tracks.map((track) => ({ ...track, receiver, placement, run: run.name }));
    });
    if (entries.length === 0) {
      if (plan.runs.length === 1) throw new CommandError('none of the recordings could be read', 1);
      leave(`run "${run.name}"`, 'none of its recordings could be read');
      continue;
    }
    showProgress('judging');
    if (given.fixes === 'written') carried.push({ name: run.name, entries, pace: run.options.pace });
    const names = entries.map(({ receiver, recording }) => receiver ?? recording.name);
    const truth = truths[r];
    const compared = baseline !== undefined && names.includes(baseline) ? baseline : undefined;
    if (truth) {
      const judged = await interruptible(() => judgeTimed(plan, run, truth, entries, compared));
      timed.push({ run: run.name, judged });
    }
    if (baseline === undefined || names.includes(baseline)) {
      assessments.push(await interruptible(() => judge(plan, run, entries, baseline)));
      continue;
    }
    if (plan.runs.length === 1) checkBaseline(baseline, names, given);
    tell(`run "${run.name}" has no recording of the baseline "${baseline}": no comparison rests on it`);
    assessments.push(await interruptible(() => judge(plan, run, entries)));
  }
  showProgress('');
  if (assessments.length === 0) throw new CommandError('none of the recordings could be read', 1);
  const included = assessments.flatMap(({ recordings }) => recordings.filter((recording) => recording.included));
  if (baseline !== undefined && !included.some(({ receiver, name }) => (receiver ?? name) === baseline)) {
    throw new CommandError(`no recording of the baseline "${baseline}" could be placed on the route`, 1);
  }
  const byTime = timed.map(({ judged }) => judged);
  const combined = () =>
    combine(assessments, {
      ...(baseline === undefined ? {} : { baseline }),
      ...(byTime.length > 0 ? { byTime } : {}),
    });
  const summary = assessments.length > 1 ? await interruptible(combined) : undefined;
  const files = [
    ...(await interruptible(() => outputs(assessments, summary, plan, leftOut, byTime))),
    ...timedFiles(byTime, summary),
    ...(given.table === 'wide' ? [['stretches.csv', wideTable(assessments, summary)] as const] : []),
    ...(given.fixes === 'written' ? [['fixes.csv', fixTable(plan.route, carried, given.times)] as const] : []),
    ...(await pictureFiles(assessments, plan, given)),
  ];
  // an interruption that came meanwhile is heard before anything is written
  await setImmediate();
  // before anything is printed: who reads that may have seen enough and end the command
  const { removed, changed } = writeFiles(out, files);
  print(`${summary ? describeSummary(summary, assessments) : describeAssessment(assessments[0])}\n\n`);
  for (const { run, judged } of timed) print(`${describeTimed(judged, run)}\n\n`);
  if (summary?.byTime && summary.byTime.runs.length > 1) print(`${describeTimedRuns(summary.byTime)}\n\n`);
  print(files.map(([name]) => `written: ${join(out, name)}\n`).join(''));
  print(removed.map((name) => `removed, written by an earlier run: ${join(out, name)}\n`).join(''));
  for (const name of changed) tell(`${join(out, name)}: written by an earlier run and changed since: left as it is`);
  const refused = assessments.flatMap(({ recordings }) =>
    recordings.flatMap(({ name, leftOut: why }) => (why ? [`left out: ${name}: ${why.message}`] : [])),
  );
  const untimed = timed.flatMap(({ judged: { recordings } }) =>
    recordings.flatMap(({ name, leftOut: why }) => (why ? [`not judged by the clock: ${name}: ${why.message}`] : [])),
  );
  for (const line of [...refused, ...untimed]) tell(line);
  return leftOut.length > 0 || cutOff || refused.length > 0 || untimed.length > 0 ? 'not all' : 'all';
}

async function readPlan({
  files: [first, ...recordings],
  zone,
  truth,
  areas,
  surroundings,
}: CommandArguments): Promise<TestPlan> {
  // once: it may be a pipe
  const data = await readBytes(first);
  const text = data.toString('utf8');
  const document = looksLikeJson(text) ? readJson(text, first) : undefined;
  if (typeof document === 'object' && document !== null && 'runs' in document) {
    if (recordings.length > 0) {
      throw wrongUsage(`${first} is a test file, which names its recordings itself: give no others`, 'assess');
    }
    if (zone !== undefined) throw wrongUsage('a test file states the "zone" of each recording itself', 'assess');
    if (truth !== undefined) throw wrongUsage('a test file states the "truth" of each run itself', 'assess');
    for (const [key, value] of Object.entries({ areas, surroundings })) {
      if (value !== undefined) throw wrongUsage(`a test file states its "${key}" itself`, 'assess');
    }
    return readTest(document, first);
  }
  if (recordings.length === 0) {
    const why = document === undefined ? 'it is no JSON document' : 'it has no "runs"';
    throw wrongUsage(`assess takes RECORDINGs after the ROUTE; ${first} is no test file (${why})`, 'assess');
  }
  const files = recordings.map((file) => ({ file, zone }));
  const route = prepareRoute(await readRoute(first, data));
  await doubtRoute(first, data);
  const options = areas === undefined ? {} : { areas: await readAreas(areas) };
  return {
    route,
    ...(surroundings === undefined ? {} : { surroundings: await readSurroundings(surroundings) }),
    runs: [{ files, options, ...(truth === undefined ? {} : { truth: { file: truth, zone } }) }],
  };
}

function judge(
  { route }: TestPlan,
  { name, options }: PlannedRun,
  entries: readonly CarriedRecording[],
  baseline?: string,
): Assessment {
  try {
    return assess(route, entries, baseline === undefined ? options : { ...options, baseline });
  } catch (error) {
    throw new CommandError(`${name === undefined ? '' : `run "${name}": `}${sentenceOf(error)}`, 1);
  }
}

/** A run judged against the recording that knows the true place. */
interface TimedRun {
  readonly run: string | undefined;
  readonly judged: TimedAssessment;
}

function judgeTimed(
  { route }: TestPlan,
  { name, options: { leverArm, equivalence } }: PlannedRun,
  truth: Recording,
  entries: readonly CarriedRecording[],
  baseline: string | undefined,
): TimedAssessment {
  try {
    return judgeByTime(truth, entries, { route, leverArm, equivalence, baseline });
  } catch (error) {
    throw new CommandError(`${name === undefined ? '' : `run "${name}": `}${sentenceOf(error)}`, 1);
  }
}

function timedFiles(
  timed: readonly TimedAssessment[],
  summary: TestSummary | undefined,
): [name: string, text: string][] {
  if (timed.length === 0) return [];
  const over = summary?.byTime;
  return [
    ...timed.map((judged, i): [string, string] => [
      timed.length > 1 ? `by-time-${i + 1}.json` : 'by-time.json',
      `${JSON.stringify(judged)}\n`,
    ]),
    ['by-time.csv', timedToCsv(timed, over ? { summary: over } : {})],
  ];
}

/** What is written, by the file's name. */
function outputs(
  assessments: readonly Assessment[],
  summary: TestSummary | undefined,
  { name: title, looks, runs, surroundings }: TestPlan,
  leftOut: readonly string[],
  byTime: readonly TimedAssessment[],
): [name: string, text: string][] {
  const json = (value: unknown) => `${JSON.stringify(value)}\n`;
  const dates = Object.fromEntries(runs.flatMap(({ name, date }) => (name && date ? [[name, date]] : [])));
  const each = assessments.map((assessment, i): [string, string] => [
    summary ? `assessment-${i + 1}.json` : 'assessment.json',
    json(assessment),
  ]);
  return [
    ['report.html', reportHtml(assessments, { title, summary, byTime, looks, dates, leftOut, surroundings })],
    ...each,
    ...(summary ? [['summary.json', json(summary)] as [string, string]] : []),
    ['rows.csv', toCsv(assessments)],
    ['places.geojson', json(toGeoJson(assessments))],
  ];
}
