import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { areasFromGeoJson, assess, combine, readGpx, routeFromRecipe, type TestFile } from 'datumline';
import { reportHtml, toCsv, toGeoJson } from 'datumline/report';

/** Milliseconds of processor time of the demo's work once more, after some rounds of it: what is left where no code is new. */
export function warmTime(folder: string, rounds: number): number {
  const read = (file: string) => readFileSync(join(folder, file), 'utf8');
  const test: TestFile = JSON.parse(read('test.json'));
  const areas = areasFromGeoJson(JSON.parse(read(test.areas!)));
  const route = routeFromRecipe(JSON.parse(read('route.json')));
  const times = Array.from({ length: rounds }, () => {
    const begun = process.cpuUsage();
    const assessments = test.runs.map(({ name: run, recordings }) =>
      assess(
        route,
        recordings.map(({ file, receiver }) => ({ recording: readGpx(read(file))[0], receiver, run })),
        { areas },
      ),
    );
    const summary = combine(assessments);
    const written = [reportHtml(assessments), JSON.stringify([assessments, summary])];
    for (const assessment of assessments) written.push(toCsv(assessment), JSON.stringify(toGeoJson(assessment)));
    const { user, system } = process.cpuUsage(begun);
    return (user + system) / 1000;
  });
  return Math.min(...times);
}
