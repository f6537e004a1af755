import { dirname, resolve } from 'node:path';
import type { Area } from '../areas';
import type { AssessOptions } from '../assess';
import type { Route } from '../model';
import { prepareRoute } from '../route';
import { checkTestFile, type TestRecording } from '../runs';
import { explain } from './explain';
import { readAreas } from './readAreas';
import { readLine, readRoute } from './readRoute';
import { readSurroundings } from './readSurroundings';
import type { PlannedFile, TestPlan } from './TestPlan';

/**
 * What a test file asks for; names of files are relative to it.
 *
 * @param test as parsed from `file`
 * @param routeOf reads the route, or has it; `areasOf` the areas
 */
export async function readTest(
  test: unknown,
  file: string,
  routeOf: (file: string) => Promise<Route> = async (name) => prepareRoute(await readRoute(name)),
  areasOf: (file: string) => Promise<readonly Area[]> = readAreas,
): Promise<TestPlan> {
  try {
    checkTestFile(test);
  } catch (error) {
    throw explain(error, file);
  }
  const beside = (name: string) => resolve(dirname(file), name);
  const companions: Pick<AssessOptions, 'decoy' | 'centreline'> = {
    ...(test.decoy === undefined ? {} : { decoy: await readLine(beside(test.decoy)) }),
    ...(test.centreline === undefined ? {} : { centreline: await readLine(beside(test.centreline)) }),
  };
  const areas = test.areas === undefined ? {} : { areas: await areasOf(beside(test.areas)) };
  const { baseline, ...options } = test.options ?? {};
  return {
    name: test.name,
    baseline,
    looks: test.looks,
    route: await routeOf(beside(test.route)),
    ...(test.surroundings === undefined ? {} : { surroundings: await readSurroundings(beside(test.surroundings)) }),
    runs: test.runs.map(({ name, date, recordings, truth, exclusions = [] }) => ({
      name,
      date,
      files: recordings.map(
        (recording): PlannedFile => ({
          file: beside(recording.file),
          name: labelOf(recording, recordings),
          receiver: recording.receiver,
          placement: recording.placement,
          track: recording.track,
          zone: recording.zone,
        }),
      ),
      ...(truth === undefined ? {} : { truth: { file: beside(truth) } }),
      options: { ...options, ...companions, ...areas, exclude: [...(test.exclusions ?? []), ...exclusions] },
    })),
  };
}

/** A recording is called as its receiver is, with the placement where a run has that receiver twice. */
function labelOf({ receiver, placement }: TestRecording, run: readonly TestRecording[]): string {
  const twice = run.filter((other) => other.receiver === receiver).length > 1;
  return twice && placement !== undefined ? `${receiver}, ${placement}` : receiver;
}
