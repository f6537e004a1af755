import {
  type Assessment,
  anonymise,
  InputError,
  type Recording,
  type Route,
  readGpx,
  type TestFile,
  writeGpx,
} from 'datumline';
import { timedToCsv, toCsv, toGeoJson } from 'datumline/report';
import { strToU8, zipSync } from 'fflate';
import { type Judged, judgePlan } from './judgePlan';
import { recordingLabel } from './recordingLabel';
import type { CompanionKey, Extent, GivenFile, Plan, PlannedRun, Progress } from './Task';

/**
 * The test and what came of it as one archive. Its figures are those of the recordings in it, so that the command gives them
 * again; where these are cut, the sentence says how much that changed.
 *
 * @param shown - what was judged of the plan
 */
export async function savePlan(
  plan: Plan,
  shown: Judged,
  extent: Extent,
  tell: (progress: Progress) => void,
): Promise<{ zip: Blob; sentence: string }> {
  if (extent === 'cut') tell({ sentence: 'Cutting the recordings to the line', share: 0 });
  const saved = extent === 'whole' ? plan : cutPlan(plan);
  const { assessments, summary, byTime, report } = saved === plan ? shown : await judgePlan(saved, tell);
  tell({ sentence: 'Packing', share: 1 });
  const json = (value: unknown) => `${JSON.stringify(value)}\n`;
  const files = new ArchiveFiles();
  files.add('report.html', report);
  assessments.forEach((assessment, i) => {
    files.add(summary ? `assessment-${i + 1}.json` : 'assessment.json', json(assessment));
  });
  if (summary) files.add('summary.json', json(summary));
  files.add('rows.csv', toCsv(assessments));
  files.add('places.geojson', json(toGeoJson(assessments)));
  byTime.forEach((judged, i) => {
    files.add(byTime.length > 1 ? `by-time-${i + 1}.json` : 'by-time.json', json(judged));
  });
  if (byTime.length > 0) {
    files.add('by-time.csv', timedToCsv(byTime, summary?.byTime ? { summary: summary.byTime } : {}));
  }
  const route = files.add('route.json', json(plan.route.recipe));
  const beside: { [key in CompanionKey | 'surroundings']?: string } = {};
  for (const [key, { path, file }] of Object.entries(plan.companions) as [CompanionKey, GivenFile][]) {
    beside[key] = files.add(`${key}${endingOf(path)}`, await bytesOf(file));
  }
  if (plan.surroundings) beside.surroundings = files.add('surroundings.geojson', json(plan.surroundings));
  const test: TestFile = {
    version: 1,
    ...plan.stated,
    route,
    ...beside,
    runs: await Promise.all(saved.runs.map((run) => writtenRun(run, files, extent))),
  };
  files.add('test.json', `${JSON.stringify(test, null, 2)}\n`);
  const zip = new Blob([zipSync(files.entries) as BlobPart], { type: 'application/zip' });
  return { zip, sentence: saved === plan ? 'Saved, recordings whole.' : cutSentence(shown.assessments, assessments) };
}

/** Files of an archive, none of the same name. */
class ArchiveFiles {
  readonly entries: Record<string, Uint8Array> = {};
  readonly #taken = new Set<string>();

  /** Returns the name it was given. */
  add(wanted: string, content: string | Uint8Array): string {
    const ending = endingOf(wanted);
    const stem = wanted.slice(0, wanted.length - ending.length);
    let name = wanted;
    // names that differ by case alone are one file on some disks
    for (let i = 2; this.#taken.has(name.toLowerCase()); i++) name = `${stem}-${i}${ending}`;
    this.#taken.add(name.toLowerCase());
    this.entries[name] = typeof content === 'string' ? strToU8(content) : content;
    return name;
  }
}

const endingOf = (path: string) => /(?:\.[a-z]\w{1,6}){1,2}$/i.exec(path)?.[0] ?? '';
const bytesOf = async (file: Blob) => new Uint8Array(await file.arrayBuffer());

/** A name as a file can have it on every system. */
const fileName = (words: string) => (words.normalize('NFKD').match(/\w+/g) ?? ['unnamed']).join('-').slice(0, 60);

async function writtenRun(run: PlannedRun, files: ArchiveFiles, extent: Extent): Promise<TestFile['runs'][number]> {
  const folder = `recordings/${fileName(run.name)}`;
  const written = new Map<Blob, string>();
  const add = async ({ path, file }: GivenFile) => {
    const name = written.get(file) ?? files.add(`${folder}/${path.replace(/^.*\//, '')}`, await bytesOf(file));
    written.set(file, name);
    return name;
  };
  const recordings: TestFile['runs'][number]['recordings'][number][] = [];
  for (const { given, receiver, placement, zone, track, notes } of run.recordings) {
    recordings.push({
      file: await add(given),
      receiver,
      ...(placement === undefined ? {} : { placement }),
      ...(extent === 'cut' || track === undefined ? {} : { track }),
      ...(extent === 'cut' || zone === undefined ? {} : { zone }),
      ...(notes === undefined ? {} : { notes }),
    });
  }
  return {
    name: run.name,
    ...(run.date === undefined ? {} : { date: run.date }),
    recordings,
    ...(run.truth === undefined ? {} : { truth: await add(run.truth.given) }),
    ...(run.exclusions.length === 0 ? {} : { exclusions: run.exclusions }),
    ...(run.notes === undefined ? {} : { notes: run.notes }),
  };
}

/** The same plan of recordings that show the line only, their times counted from the first in the run; read back as written. */
function cutPlan(plan: Plan): Plan {
  const leftOut = [...plan.leftOut];
  const runs = plan.runs.map((run): PlannedRun => {
    const labels = run.recordings.map((one) => recordingLabel(one, run.recordings));
    const cut = run.recordings.map(({ recording }) => cutToLine(recording, plan.route));
    const truth = run.truth && cutToLine(run.truth.recording, plan.route);
    const since = firstTime([...cut, truth]);
    const rewritten = (recording: Recording, name: string) => {
      const text = writeGpx(since === undefined ? recording : anonymise(recording, { since }), { times: 'absolute' });
      return {
        recording: readGpx(text, { name })[0],
        given: { path: `${fileName(name)}.gpx`, file: new Blob([text]) },
      };
    };
    const recordings = run.recordings.flatMap((one, k) => {
      const shown = cut[k];
      if (shown !== undefined) {
        return [{ ...one, zone: undefined, track: undefined, ...rewritten({ ...shown, name: labels[k] }, labels[k]) }];
      }
      leftOut.push(`${labels[k]}, ${run.name}: nothing of it lies on the line`);
      return [];
    });
    return { ...run, recordings, truth: truth && rewritten({ ...truth, name: 'truth' }, 'truth') };
  });
  const left = runs.filter(({ recordings }) => recordings.length > 0);
  if (left.length === 0) throw new Error('Cut to the line, nothing is left of any recording.');
  return { ...plan, runs: left, leftOut };
}

function cutToLine(recording: Recording, route: Route): Recording | undefined {
  try {
    return anonymise(recording, { route, times: 'absolute' });
  } catch (error) {
    if (error instanceof InputError && error.reason === 'too-few') return undefined;
    throw error;
  }
}

function firstTime(recordings: readonly (Recording | undefined)[]): number | undefined {
  let first = Number.POSITIVE_INFINITY;
  for (const recording of recordings) {
    for (const time of recording?.time ?? []) if (time < first) first = time;
  }
  return Number.isFinite(first) ? first : undefined;
}

/** How far the figures of what is cut are from those shown. */
function cutSentence(shown: readonly Assessment[], cut: readonly Assessment[]): string {
  let most = 0;
  let missing = 0;
  let verdicts = 0;
  for (const assessment of shown) {
    const run = assessment.recordings[0]?.run;
    const other = cut.find(({ recordings }) => recordings[0]?.run === run);
    for (const { recording, section, meanAbsolute } of assessment.rows) {
      const row = other?.rows.find((one) => one.recording === recording && one.section === section);
      if (row === undefined || (row.meanAbsolute === null) !== (meanAbsolute === null)) missing++;
      else if (meanAbsolute !== null) most = Math.max(most, Math.abs(row.meanAbsolute! - meanAbsolute));
    }
    for (const { first, second, section, verdict } of assessment.pairs) {
      const pair = other?.pairs.find((one) => one.first === first && one.second === second && one.section === section);
      if (pair?.verdict !== verdict) verdicts++;
    }
  }
  const changes = [
    `mean distances by up to ${most.toFixed(2)} m`,
    ...(missing > 0 ? [`${missing} figures missing on one side`] : []),
    ...(verdicts > 0 ? [`${verdicts} verdicts`] : []),
  ].join(', ');
  return `Saved, recordings cut to the line. The figures in the archive are those of the cut recordings; beside the report shown here the cut changed ${changes}.`;
}
