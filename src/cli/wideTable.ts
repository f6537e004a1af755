import type { Assessment, AssessmentRow } from '../assess';
import { csvTable } from '../formats';
import type { SummaryRow, TestSummary } from '../runs';

type Cell = string | number | null;

/** The columns that each receiver has. */
const columns: readonly (readonly [head: string, cell: (row: AssessmentRow | SummaryRow) => Cell])[] = [
  ['off by (m)', ({ meanAbsolute }) => meanAbsolute],
  ['off by, 95 % from (m)', ({ interval95 }) => interval95?.[0] ?? null],
  ['off by, 95 % to (m)', ({ interval95 }) => interval95?.[1] ?? null],
  ['side (m; right positive)', ({ bias }) => bias],
  ['side, 95 % from (m)', ({ biasInterval95 }) => biasInterval95?.[0] ?? null],
  ['side, 95 % to (m)', ({ biasInterval95 }) => biasInterval95?.[1] ?? null],
  ['covered (share)', ({ coverage }) => coverage],
  ['in corridor (share)', ({ insideCorridor }) => insideCorridor],
  ['line', ({ lineVerdict }) => lineVerdict],
  ['sure side', ({ sureSide }) => sureSide],
];

/**
 * One row for each stretch, the whole route last, as CSV (RFC 4180): for each receiver its figures beside each other; over
 * several runs those that the runs say together.
 */
export function wideTable([first, ...others]: readonly Assessment[], summary: TestSummary | undefined): string {
  const rows = summary
    ? summary.rows.map((row) => ({ row, label: row.receiver }))
    : [first, ...others].flatMap(({ rows: own }) => own.map((row) => ({ row, label: row.recording })));
  const labels = [...new Set(rows.map(({ label }) => label))];
  const { sections, length } = first.route;
  const stretches = [...sections, { name: null, from: 0, to: length }];
  return csvTable([
    ['section', 'from (m)', 'to (m)', ...labels.flatMap((label) => columns.map(([head]) => `${label}: ${head}`))],
    ...stretches.map(({ name, from, to }) => [
      name ?? 'whole route',
      from,
      to,
      ...labels.flatMap((label): Cell[] => {
        const found = rows.find(({ row, label: own }) => own === label && row.section === name);
        return columns.map(([, cell]) => (found ? cell(found.row) : null));
      }),
    ]),
  ]);
}
