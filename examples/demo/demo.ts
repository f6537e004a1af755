import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { areasFromGeoJson, assess, combine, readGpx, writeGpx } from 'datumline';
import { reportHtml, toCsv, toGeoJson } from 'datumline/report';
import { demoAreas, demoSurroundings } from './demoGround';
import { demoRoute } from './demoRoute';
import { demoRuns, recordingFile } from './demoRuns';
import { printTable } from './printTable';

/** The main job from end to end, on an invented ride: author the line, read the recordings, judge them, write the files. */
const route = demoRoute();
const areas = areasFromGeoJson(demoAreas(route));

const assessments = demoRuns.map(({ run, worn }) =>
  assess(
    route,
    Object.entries(worn).map(([receiver, placement]) => {
      const [recording] = readGpx(readFileSync(recordingFile(run, receiver), 'utf8'), { name: `receiver ${receiver}` });
      return { recording, receiver: `receiver ${receiver}`, placement, run };
    }),
    { areas },
  ),
);
const summary = combine(assessments);

const metres = (value: number | null) => (value === null ? '–' : (Math.round(10 * value) / 10 + 0).toFixed(1));
const share = (value: number) => `${(100 * value).toFixed(0)} %`;
const range = (interval: readonly number[] | null) => interval?.map(metres).join(' to ') ?? '–';

console.log(
  `${route.name}: ${route.length.toFixed(0)} m, ${demoRuns.length} runs with 3 receivers. All data invented.\n`,
);

console.log('Run 1, section by section (metres; bias to the side named, in the direction of travel)\n');
const titles = 'section,receiver,covered,mean,95 % of this run,median,p95,worst,bias,recorded,line'.split(',');
const sections = assessments[0].route.sections.map(({ name }): string | null => name).concat(null);
printTable(
  titles,
  sections.flatMap((section) =>
    assessments[0].rows
      .filter((row) => row.section === section)
      .map((row) => [
        section ?? 'whole route',
        row.recording,
        share(row.coverage),
        metres(row.meanAbsolute),
        range(row.interval95),
        metres(row.median),
        metres(row.p95),
        metres(row.max),
        row.biasInWords ?? metres(row.bias),
        metres(row.recordedLength),
        metres(row.referenceLength),
      ]),
  ),
);

console.log('\nAll three runs together: mean distance from the line (the run is the unit)\n');
printTable(
  ['section', 'receiver', 'runs', 'mean', '95 % over runs', 'right of the line', '95 % of it', 'verdict against it'],
  summary.rows.map((row) => [
    row.section ?? 'whole route',
    row.receiver,
    String(row.runs),
    metres(row.meanAbsolute),
    range(row.interval95),
    metres(row.bias),
    range(row.biasInterval95),
    row.strayedTo === null ? row.lineVerdict : `${row.lineVerdict} ${row.strayedTo}`,
  ]),
);
console.log(
  '\nOn the ground: share of the recorded line inside the allowed areas; metres, seconds and times in impossible ones\n',
);
printTable(
  ['receiver', 'run', 'inside', 'too near to tell', 'outside', 'through', 'seconds', 'times', 'most of it'],
  assessments.flatMap(({ rows, passages }, i) =>
    rows
      .filter(({ section }) => section === null)
      .map(({ recording, insideAllowed, undecidedAllowed, outsideAllowed, insideImpossible }) => [
        recording,
        demoRuns[i].run,
        share(insideAllowed ?? 0),
        share(undecidedAllowed ?? 0),
        metres(outsideAllowed?.metres ?? null),
        metres(insideImpossible?.metres ?? null),
        metres(insideImpossible?.seconds ?? null),
        String(insideImpossible?.times ?? 0),
        passages.find((passage) => passage.recording === recording && passage.area !== null)?.area ?? '–',
      ]),
  ),
);
console.log('\nWhat is sure on each stretch, what is not, and what would decide it\n');
for (const { sentence } of summary.order) console.log(sentence);

const out = new URL('../out/', import.meta.url);
mkdirSync(out, { recursive: true });
const files: Record<string, string> = {
  'demo-route.gpx': writeGpx(route),
  'demo-route.json': JSON.stringify(route.recipe, null, 2),
  'demo-report.html': reportHtml(assessments, { summary, surroundings: demoSurroundings(route) }),
  'demo-figures.csv': toCsv(assessments),
  'demo-places.geojson': JSON.stringify(toGeoJson(assessments)),
  'demo-summary.json': JSON.stringify(summary, null, 2),
};
assessments.forEach((assessment, i) => {
  files[`demo-run-${i + 1}.json`] = JSON.stringify(assessment);
});
for (const [name, content] of Object.entries(files)) writeFileSync(new URL(name, out), content);
console.log(`\nWritten to ${fileURLToPath(out)}: ${Object.keys(files).join(', ')}`);
