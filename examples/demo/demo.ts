import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { assess, readGpx, writeGpx } from 'datumline';
import { demoRoute } from './demoRoute';
import { demoRuns, recordingFile } from './demoRuns';

/** The main job from end to end, on an invented ride: author the line, read the recordings, judge them, write the files. */
const route = demoRoute();

const recordings = demoRuns.flatMap(({ run, worn }) =>
  Object.entries(worn).map(([receiver, placement]) => {
    const name = `receiver ${receiver}, ${run}`;
    const [recording] = readGpx(readFileSync(recordingFile(run, receiver), 'utf8'), { name });
    return { recording, receiver: `receiver ${receiver}`, placement, run };
  }),
);

const assessment = assess(route, recordings);

console.log(`${route.name}: ${route.length.toFixed(0)} m, ${recordings.length} recordings. All data invented.\n`);
const columns = [
  'section',
  'recording',
  'covered',
  'mean',
  '95 % interval',
  'median',
  'p95',
  'worst',
  'bias',
  'recorded',
  'line',
];
const metres = (value: number | null) => (value === null ? '–' : value.toFixed(1));
const table = assessment.rows.map((row) => [
  row.section ?? 'whole route',
  row.recording,
  `${(100 * row.coverage).toFixed(0)} %`,
  metres(row.meanAbsolute),
  row.interval95 ? row.interval95.map(metres).join(' to ') : '–',
  metres(row.median),
  metres(row.p95),
  metres(row.max),
  row.biasInWords ?? metres(row.bias),
  metres(row.recordedLength),
  metres(row.referenceLength),
]);
const widths = columns.map((title, k) => Math.max(title.length, ...table.map((cells) => cells[k].length)));
const show = (cells: string[]) =>
  cells.map((cell, k) => (k < 2 ? cell.padEnd(widths[k]) : cell.padStart(widths[k]))).join('  ');
console.log(show(columns));
let shown = '';
for (const cells of table.sort((a, b) => order(a[0]) - order(b[0]))) {
  if (cells[0] !== shown && shown) console.log('');
  console.log(show(cells));
  shown = cells[0];
}
console.log(
  '\nMetres; bias is to the side named, seen in the direction of travel. Intervals hold for that run only.\n',
);
for (const { run, section, sentence } of assessment.order) {
  if (section === null) console.log(`${run}: ${sentence}`);
}

const out = new URL('../out/', import.meta.url);
mkdirSync(out, { recursive: true });
const files = {
  'demo-route.gpx': writeGpx(route),
  'demo-assessment.json': JSON.stringify(assessment),
};
for (const [name, content] of Object.entries(files)) writeFileSync(new URL(name, out), content);
console.log(`\nWritten to ${fileURLToPath(out)}: ${Object.keys(files).join(', ')}`);

function order(section: string): number {
  const at = route.sections.findIndex(({ name }) => name === section);
  return at < 0 ? route.sections.length : at;
}
