import { type Assessment, type AssessmentRow, warningLine } from '../assess';
import { byCloseness } from './byCloseness';
import { coveredEnough } from './coveredEnough';
import { describeGround } from './describeGround';
import { describeLineVerdict } from './describeLineVerdict';
import { describeSide } from './describeSide';
import { tableLegend } from './tableLegend';
import { textTable } from './textTable';

const metres = (value: number | null, digits = 1) => (value === null ? '–' : value.toFixed(digits));
const share = (value: number | null) => (value === null ? '–' : `${Math.round(100 * value)} %`);

/** The assessment of one run as it is printed: section by section, the closest first, then what can be said of the order. */
export function describeAssessment(assessment: Assessment): string {
  const { rows, order, warnings, recordings, method } = assessment;
  const ground = describeGround([assessment]);
  const head = [
    'section',
    'recording',
    'covered',
    'off by',
    '95 % interval',
    'side (95 %)',
    'p90',
    'in corridor',
    'line',
    'length error',
  ];
  const { baseline } = method.options;
  const named = (recording: string) => {
    const described = recordings.find(({ name }) => name === recording);
    if (described?.included === false) return `${recording} (left out)`;
    return (described?.receiver ?? recording) === baseline ? `${recording} (baseline)` : recording;
  };
  const sections = [...new Set(rows.map(({ section }) => section))];
  const cells = sections.flatMap((section) =>
    byCloseness(rows.filter((row) => row.section === section)).map((row, i) => [
      i === 0 ? (section ?? 'whole route') : '',
      named(row.recording),
      ...describeRow(row),
    ]),
  );
  const align = head.map((title, k) => (k < 2 || title === 'line' ? 'left' : 'right'));
  const said = order.map(({ sentence }) => sentence);
  const warned = warnings.map((warning) => warningLine(warning));
  return [
    textTable(head, cells, align),
    ...tableLegend(rows),
    ...(said.length === 0 ? [] : ['', ...said]),
    ...(ground.length === 0 ? [] : ['', ...ground]),
    ...(warned.length === 0 ? [] : ['', 'Warnings:', ...warned.map((line) => `- ${line}`)]),
  ].join('\n');
}

function describeRow(row: AssessmentRow): string[] {
  const { coverage, meanAbsolute, interval95, bias, biasInterval95, p90, insideCorridor, lengthError } = row;
  return [
    share(coverage),
    coveredEnough(row) ? `${metres(meanAbsolute)} m` : `(${metres(meanAbsolute)} m)`,
    interval95 === null ? '–' : `${metres(interval95[0])}–${metres(interval95[1])}`,
    describeSide(bias, biasInterval95),
    metres(p90),
    share(insideCorridor),
    describeLineVerdict(row),
    lengthError === null ? '–' : `${lengthError < 0 ? '−' : '+'}${metres(Math.abs(lengthError))} m`,
  ];
}
