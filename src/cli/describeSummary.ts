import type { Assessment } from '../assess';
import type { TestSummary } from '../runs';
import { byCloseness } from './byCloseness';
import { coveredEnough } from './coveredEnough';
import { describeGround } from './describeGround';
import { describeLineVerdict } from './describeLineVerdict';
import { describeSide } from './describeSide';
import { tableLegend } from './tableLegend';
import { textTable } from './textTable';
import { warningLine } from './warningLine';

const metres = (value: number | null) => (value === null ? '–' : value.toFixed(1));
const share = (value: number | null) => (value === null ? '–' : `${Math.round(100 * value)} %`);

/** Column of the verdict against the line. */
const LINE = 8;

/**
 * What several runs say together, as it is printed: each run counts once. What is wrong with a single recording is said as
 * well.
 */
export function describeSummary(summary: TestSummary, assessments: readonly Assessment[]): string {
  const { rows, order, warnings, runs, baseline } = summary;
  const ground = describeGround(assessments, summary);
  const head = [
    'section',
    'receiver',
    'runs',
    'covered',
    'off by',
    '95 % over runs',
    'side (95 %)',
    'in corridor',
    'line',
    ...runs.map(({ name }) => name),
  ];
  const keyOf = (run: string | null, receiver: string | null) => JSON.stringify([run, receiver]);
  const leftOut = new Set(
    warnings.flatMap(({ reason, run, receiver }) => (reason === 'left-out' ? [keyOf(run, receiver)] : [])),
  );
  const sections = [...new Set(rows.map(({ section }) => section))];
  const cells = sections.flatMap((section) =>
    byCloseness(rows.filter((row) => row.section === section)).map((row, i) => [
      i === 0 ? (section ?? 'whole route') : '',
      row.receiver === baseline ? `${row.receiver} (baseline)` : row.receiver,
      String(row.runs),
      share(row.coverage),
      coveredEnough(row) ? `${metres(row.meanAbsolute)} m` : `(${metres(row.meanAbsolute)} m)`,
      row.interval95 === null ? '–' : row.interval95.map(metres).join('–'),
      describeSide(row.bias, row.biasInterval95),
      share(row.insideCorridor),
      describeLineVerdict(row),
      ...row.byRun.map((mean, k) =>
        mean === null && leftOut.has(keyOf(runs[k].name, row.receiver)) ? 'left out' : metres(mean),
      ),
    ]),
  );
  const said = order.map(({ sentence }) => sentence);
  const ofRecordings = assessments.flatMap((assessment, i) =>
    assessment.warnings
      .filter(({ recording }) => recording !== null)
      .map((warning) => `- ${warningLine(warning, runs[i]?.name)}`),
  );
  // of the route, each once: every run has the same
  const ofRoute = new Set(
    assessments.flatMap((assessment) =>
      assessment.warnings
        .filter(({ reason }) => reason === 'route' || reason === 'no-uncertainty')
        .map((warning) => `- ${warningLine(warning)}`),
    ),
  );
  // what the summary passes on of a recording stands there with its name
  const passedOn = new Set(
    assessments.flatMap((assessment) =>
      assessment.warnings.flatMap(({ recording, message }) => (recording === null ? [] : message)),
    ),
  );
  const overall = warnings.flatMap(({ message }) => (passedOn.has(message) ? [] : `- ${message}`));
  const warned = [...overall, ...ofRoute, ...ofRecordings];
  return [
    textTable(
      head,
      cells,
      head.map((_, k) => (k < 2 || k === LINE ? 'left' : 'right')),
    ),
    ...tableLegend(rows),
    ...(said.length === 0 ? [] : ['', ...said]),
    ...(ground.length === 0 ? [] : ['', ...ground]),
    ...(warned.length === 0 ? [] : ['', 'Warnings:', ...warned]),
  ].join('\n');
}
