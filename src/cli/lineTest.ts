import type { GeoJSON } from 'geojson';
import { type Area, areasFromGeoJson } from '../areas';
import { cannot } from './CommandError';
import { explain } from './explain';
import type { LineTask } from './LineTask';
import { lineWords } from './lineWords';
import type { RouteShelf } from './RouteShelf';
import { readDocument } from './readJson';
import { readTest } from './readTest';
import type { PlannedFile, PlannedRun, TestPlan } from './TestPlan';

type Asked = Readonly<Record<string, unknown>>;

const howMade = ['receiver', 'placement', 'run', 'zone', 'track'] as const;

/** A recording as a line asks for it. */
type AskedRecording = { readonly recording: string } & { readonly [key in (typeof howMade)[number]]?: string };

/**
 * What a line of `assess --ndjson` asks for: one recording of a route, several of them, or a whole test, named by its file or
 * given as such; with the areas that it is judged by. Names of files are relative to where the command runs, those in a test's file to that.
 */
export async function lineTest(asked: Asked, { number, zone: usual }: LineTask, routes: RouteShelf): Promise<TestPlan> {
  const place = `line ${number}`;
  const forms = ['recording', 'recordings', 'test'].filter((key) => asked[key] !== undefined);
  if (forms.length > 1) throw cannot(place, `${forms.map((key) => `"${key}"`).join(' and ')} exclude each other`);
  const { zone = usual } = lineWords(asked, [], ['zone'], place);
  if (forms[0] === 'test') {
    const own = ['route', 'areas'].find((key) => asked[key] !== undefined);
    if (own !== undefined) throw cannot(place, `"test" names its ${own} itself: give no "${own}"`);
    return inZone(await readAsked(asked, place, routes), zone);
  }
  const { route: file } = lineWords(asked, ['route'], [], place);
  const recordings =
    forms[0] === 'recordings'
      ? listed(asked.recordings, place)
      : [lineWords(asked, ['recording'], ['receiver', 'placement', 'run', 'zone'], place)];
  const options = asked.areas === undefined ? {} : { areas: await areasOf(asked.areas, place, routes) };
  return inZone({ route: await routes.get(file), runs: runsOf(recordings, options) }, zone);
}

async function readAsked(asked: Asked, place: string, routes: RouteShelf): Promise<TestPlan> {
  const [routeOf, areasOf] = [(file: string) => routes.get(file), (file: string) => routes.areas(file)];
  if (typeof asked.test === 'object') return readTest(asked.test, place, routeOf, areasOf);
  const { test } = lineWords(asked, ['test'], [], place);
  return readTest(await readDocument(test), test, routeOf, areasOf);
}

/** The polygons of a file, or those of a document given as such. */
async function areasOf(areas: unknown, place: string, routes: RouteShelf): Promise<readonly Area[]> {
  if (typeof areas === 'string' && areas !== '') return routes.areas(areas);
  if (typeof areas !== 'object') throw cannot(place, '"areas" must be a FILE of polygons, or GeoJSON itself');
  try {
    return areasFromGeoJson(areas as GeoJSON);
  } catch (error) {
    throw explain(error, `${place}: areas`);
  }
}

/** Files that state no zone of their own are in that of the line. */
function inZone(plan: TestPlan, zone: string | undefined): TestPlan {
  if (zone === undefined) return plan;
  const told = (file: PlannedFile): PlannedFile => ({ ...file, zone: file.zone ?? zone });
  return { ...plan, runs: plan.runs.map((run) => ({ ...run, files: run.files.map(told) })) };
}

function listed(value: unknown, place: string): AskedRecording[] {
  if (!Array.isArray(value) || value.length === 0) {
    throw cannot(place, '"recordings" must be a list of at least one {"recording": FILE, …}');
  }
  return value.map((one, i): AskedRecording => {
    const inside = `${place}: recordings[${i}]`;
    if (typeof one !== 'object' || one === null || Array.isArray(one)) throw cannot(inside, 'not an object');
    const known: readonly string[] = ['recording', ...howMade];
    const strange = Object.keys(one).find((key) => !known.includes(key));
    if (strange !== undefined) throw cannot(inside, `"${strange}" is none of ${known.join(', ')}`);
    return lineWords(one, ['recording'], howMade, inside);
  });
}

/** The recordings run by run, in the order in which the runs are first named. */
function runsOf(recordings: readonly AskedRecording[], options: PlannedRun['options']): PlannedRun[] {
  return [...new Set(recordings.map(({ run }) => run))].map((name) => ({
    name,
    options,
    files: recordings
      .filter(({ run }) => run === name)
      .map(({ recording, run: _, ...rest }): PlannedFile => ({ ...rest, file: recording })),
  }));
}
