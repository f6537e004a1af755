import type { Assessment, AssessmentRow } from '../assess';
import { textTable } from './textTable';

const metres = (value: number | null, digits = 1) => (value === null ? '–' : value.toFixed(digits));
const share = (value: number | null) => (value === null ? '–' : `${Math.round(100 * value)} %`);

/** The assessment of one run as it is printed: section by section, the closest first, then what can be said of the order. */
export function describeAssessment({ rows, order, warnings }: Assessment): string {
  const head = [
    'section',
    'recording',
    'covered',
    'off by',
    '95 % interval',
    'bias',
    'p90',
    'in corridor',
    'length error',
  ];
  const sections = [...new Set(rows.map(({ section }) => section))];
  const cells = sections.flatMap((section) =>
    rows
      .filter((row) => row.section === section)
      .sort((a, b) => (a.meanAbsolute ?? Infinity) - (b.meanAbsolute ?? Infinity))
      .map((row, i) => [i === 0 ? (section ?? 'whole route') : '', ...describeRow(row)]),
  );
  const align = head.map((_, k) => (k < 2 ? 'left' : 'right'));
  const said = order.map(({ sentence }) => sentence);
  const warned = warnings.map(
    ({ recording, section, message }) =>
      [recording, section]
        .filter((name) => name !== null)
        .join(', ')
        .replace(/(?<=.)$/, ': ') + message,
  );
  return [
    textTable(head, cells, align),
    ...(said.length === 0 ? [] : ['', ...said]),
    ...(warned.length === 0 ? [] : ['', 'Warnings:', ...warned.map((line) => `- ${line}`)]),
  ].join('\n');
}

function describeRow(row: AssessmentRow): string[] {
  const { recording, coverage, meanAbsolute, interval95, bias, biasInWords, p90, insideCorridor, lengthError } = row;
  return [
    recording,
    share(coverage),
    `${metres(meanAbsolute)} m`,
    interval95 === null ? '–' : `${metres(interval95[0])}–${metres(interval95[1])}`,
    biasInWords ?? metres(bias),
    metres(p90),
    share(insideCorridor),
    lengthError === null ? '–' : `${lengthError < 0 ? '−' : '+'}${metres(Math.abs(lengthError))} m`,
  ];
}
