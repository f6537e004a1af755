import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { assess, combine, judgeByTime, routeBuilder } from 'datumline';
import { reportHtml, timedToCsv } from 'datumline/report';
import { surveyedRide } from './surveyedRide';

/** Three rides with a survey-grade receiver carried along: where was each of the others at that second? All data invented. */
const route = routeBuilder({ name: 'harbour loop (invented)', halfWidth: 3, lateral95: 0.2 })
  .start([9.91, 63.3])
  .section('pier')
  .lineBy({ azimuth: 80, distance: 900 })
  .section('terraces')
  .arc({ turn: 'right', radius: 60, sweep: 90 })
  .lineBy({ azimuth: 170, distance: 500 })
  .arc({ turn: 'right', radius: 25, sweep: 90 })
  .section('shore')
  .lineBy({ azimuth: 260, distance: 1100 })
  .build();

const runs = [11, 12, 13].map((seed, i) => {
  const { truth, carried } = surveyedRide(route, Date.UTC(2031, 4, 6 + i, 9), seed);
  const entries = carried.map((recording) => ({ recording, receiver: recording.name, run: `day ${i + 1}` }));
  return {
    onRoute: assess(route, entries),
    byTime: judgeByTime(truth, entries, { route, truth95: 0.1 }),
  };
});
const byTime = runs.map((run) => run.byTime);
const assessments = runs.map((run) => run.onRoute);
const summary = combine(assessments, { byTime });

const metres = (figure: { readonly mean: number; readonly interval95: readonly number[] | null }) =>
  `${figure.mean.toFixed(1)} m (${figure.interval95?.map((end) => end.toFixed(1)).join(' to ')})`;
for (const row of summary.byTime!.rows.filter(({ section }) => section === null)) {
  console.log(
    `${row.receiver}: horizontal ${metres(row.horizontal!)}, 95 % within ${metres(row.horizontal!.p95)}; ahead ${metres(row.along!)}, right ${metres(row.across!)}; ${row.delay!.mean.toFixed(2)} s late`,
  );
}
for (const { first, second, section, verdict, closer } of summary.byTime!.pairs) {
  if (section === null) console.log(`${first} and ${second}: ${verdict}${closer === null ? '' : `, ${closer}`}`);
}

const out = new URL('../out/', import.meta.url);
mkdirSync(out, { recursive: true });
const files = {
  'truth-report.html': reportHtml(assessments, { summary, byTime }),
  'truth-figures.csv': timedToCsv(byTime, { summary: summary.byTime! }),
};
for (const [name, content] of Object.entries(files)) writeFileSync(new URL(name, out), content);
console.log(`\nWritten to ${fileURLToPath(out)}: ${Object.keys(files).join(', ')}`);
