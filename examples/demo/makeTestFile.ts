import { writeFileSync } from 'node:fs';
import type { TestFile } from 'datumline';
import { demoAreas, demoSurroundings } from './demoGround';
import { demoRoute } from './demoRoute';
import { demoRuns, recordingFile } from './demoRuns';

/** Writes the demo's route as a recipe, its areas and surroundings, and its test file anew: `datumline assess examples/demo/test.json --out DIR`. */
const here = new URL('./', import.meta.url);
const test: TestFile = {
  version: 1,
  name: 'Demo, all of it invented',
  route: 'route.json',
  areas: 'areas.geojson',
  surroundings: 'surroundings.geojson',
  runs: demoRuns.map(({ run, worn }) => ({
    name: run,
    recordings: Object.entries(worn).map(([receiver, placement]) => ({
      file: recordingFile(run, receiver).href.slice(here.href.length),
      receiver,
      placement,
    })),
  })),
};
writeFileSync(new URL('areas.geojson', here), `${JSON.stringify(demoAreas(demoRoute()))}\n`);
writeFileSync(new URL('surroundings.geojson', here), `${JSON.stringify(demoSurroundings(demoRoute()))}\n`);
writeFileSync(new URL('route.json', here), `${JSON.stringify(demoRoute().recipe, null, 2)}\n`);
writeFileSync(new URL('test.json', here), `${JSON.stringify(test, null, 2)}\n`);
