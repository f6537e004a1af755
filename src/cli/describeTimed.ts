import type { Interval } from '../assess';
import type { TimedSummary } from '../runs';
import type { ErrorFigure, TimedAssessment, TimedPair, TimedRow } from '../truth';
import { textTable } from './textTable';

const metres = (value: number | undefined) => (value === undefined ? '–' : value.toFixed(1));

/** How a run was judged by the clock, as it is printed: section by section, then what two of them differ by. */
export function describeTimed({ rows, pairs, warnings, recordings }: TimedAssessment, run?: string): string {
  const head = ['section', 'recording', 'seconds', 'off by 50 75 95 %', 'along 50 75 95 %', 'across 50 75 95 %'];
  const more = ['ahead', 'right', 'delay (95 %)', 'available', 'longest outage'];
  const sections = [...new Set(rows.map(({ section }) => section))];
  const cells = sections.flatMap((section) =>
    rows
      .filter((row) => row.section === section)
      .map((row, i) => [i === 0 ? (section ?? 'all') : '', row.recording, ...describeRow(row)]),
  );
  const verdicts = verdictsOf(pairs);
  const left = recordings.flatMap(({ name, leftOut }) => (leftOut ? [name] : []));
  return [
    `By the clock${run === undefined ? '' : `, run “${run}”`}: metres from where the truth was at that second; this run only`,
    '',
    textTable(
      [...head, ...more],
      cells,
      [...head, ...more].map((_, k) => (k < 2 ? 'left' : 'right')),
    ),
    ...(cells.some((row) => row.some((cell) => cell.endsWith('*'))) ? ['', STARRED] : []),
    ...(verdicts.length > 0 ? ['', ...verdicts] : []),
    ...(warnings.length > 0
      ? [
          '',
          'Warnings:',
          ...warnings.map(
            ({ recording, message }) =>
              `- ${recording === null ? '' : `${recording}${left.includes(recording) ? ' (left out)' : ''}: `}${message}`,
          ),
        ]
      : []),
  ].join('\n');
}

/** What several runs say together by the clock, as it is printed. */
export function describeTimedRuns({ rows, pairs, runs, warnings }: TimedSummary): string {
  const head = [
    'section',
    'receiver',
    'runs',
    'off by (95 %)',
    '95 % within',
    'ahead (95 %)',
    'right (95 %)',
    'late (95 %)',
    'available',
  ];
  const ranged = (figure: { readonly mean: number; readonly interval95: Interval | null } | null, digits = 1) => {
    if (figure === null) return '–';
    const ends = figure.interval95?.map((end) => end.toFixed(digits)).join(' to ');
    return `${figure.mean.toFixed(digits)}${ends === undefined ? '' : ` (${ends})`}`;
  };
  const cells = rows.map((row, i) => [
    row.section === rows[i - 1]?.section && i > 0 ? '' : (row.section ?? 'all'),
    row.receiver,
    String(row.runs),
    `${ranged(row.horizontal)}${row.horizontal && row.horizontal.unresolved.length > 0 ? '*' : ''}`,
    ranged(row.horizontal?.p95 ?? null),
    ranged(row.along),
    ranged(row.across),
    ranged(row.delay, 2),
    row.availability === null ? '–' : `${Math.round(100 * row.availability)} %`,
  ]);
  const verdicts = verdictsOf(pairs);
  return [
    `By the clock over ${runs.length} runs: metres from where the truth was at that second, seconds late`,
    '',
    textTable(
      head,
      cells,
      head.map((_, k) => (k < 2 ? 'left' : 'right')),
    ),
    ...(cells.some((row) => row.some((cell) => cell.endsWith('*'))) ? ['', STARRED] : []),
    ...(verdicts.length > 0 ? ['', ...verdicts] : []),
    ...(warnings.length > 0 ? ['', 'Warnings:', ...warnings.map(({ message }) => `- ${message}`)] : []),
  ].join('\n');
}

const STARRED = '* some lie within the truth’s own uncertainty';

function verdictsOf(
  pairs: readonly Pick<TimedPair, 'first' | 'second' | 'section' | 'verdict' | 'closer' | 'difference' | 'limits'>[],
): string[] {
  return pairs.flatMap(({ first, second, section, verdict, closer, difference, limits }) => {
    const where = section === null ? '' : ` on “${section}”`;
    const other = closer === first ? second : first;
    if (verdict === 'closer')
      return [`“${closer}” lay closer than “${other}”${where}, by ${metres(Math.abs(difference!))} m.`];
    if (verdict === 'equivalent') return [`“${first}” and “${second}” are equivalent${where}.`];
    return section === null ? [`“${first}” and “${second}”: undecided. ${limits[0].message}`] : [];
  });
}

function describeRow(row: TimedRow): string[] {
  const percentiles = (figure: ErrorFigure | null) =>
    `${metres(figure?.p50)} ${metres(figure?.p75)} ${metres(figure?.p95)}${figure && figure.unresolved.length > 0 ? '*' : ''}`;
  const { delay, availability, longestOutage } = row;
  const within = delay?.interval95 ? ` (${delay.interval95.map((end) => end.toFixed(1)).join(' to ')})` : '';
  return [
    `${row.judged} of ${row.seconds}`,
    percentiles(row.horizontal),
    percentiles(row.along),
    percentiles(row.across),
    metres(row.along?.mean),
    metres(row.across?.mean),
    delay ? `${delay.seconds.toFixed(2)} s${within}` : '–',
    availability === null ? '–' : `${Math.round(100 * availability)} %`,
    longestOutage ? `${longestOutage.seconds} s` : '–',
  ];
}
