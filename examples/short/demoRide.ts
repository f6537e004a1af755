import { readFileSync } from 'node:fs';
import { readGpx } from 'datumline';
import { demoRoute } from '../demo/demoRoute';
import { recordingFile } from '../demo/demoRuns';

/** The invented demo route, and a ride of it. */
export const demoRide = (receiver: string, run = 'run 1') => {
  const [recording] = readGpx(readFileSync(recordingFile(run as 'run 1', receiver)), { name: receiver });
  return { route: demoRoute(), recording };
};
