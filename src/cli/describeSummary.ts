import type { Assessment } from '../assess';
import type { TestSummary } from '../runs';
import { textTable } from './textTable';

const metres = (value: number | null) => (value === null ? '–' : value.toFixed(1));

/**
 * What several runs say together, as it is printed: each run counts once. What is wrong with a single recording is said as
 * well.
 */
export function describeSummary(
  { rows, order, warnings, runs }: TestSummary,
  assessments: readonly Assessment[],
): string {
  const head = ['section', 'receiver', 'runs', 'off by', '95 % over runs', ...runs.map(({ name }) => name)];
  const sections = [...new Set(rows.map(({ section }) => section))];
  const cells = sections.flatMap((section) =>
    rows
      .filter((row) => row.section === section)
      .sort((a, b) => (a.meanAbsolute ?? Infinity) - (b.meanAbsolute ?? Infinity))
      .map(({ receiver, runs, meanAbsolute, interval95, byRun }, i) => [
        i === 0 ? (section ?? 'whole route') : '',
        receiver,
        String(runs),
        `${metres(meanAbsolute)} m`,
        interval95 === null ? '–' : interval95.map(metres).join(' to '),
        ...byRun.map(metres),
      ]),
  );
  const said = order.map(({ sentence }) => sentence);
  const ofRecordings = assessments.flatMap((assessment, i) =>
    assessment.warnings
      .filter(({ recording }) => recording !== null)
      .map(({ recording, message }) => `- ${runs[i]?.name}, ${recording}: ${message}`),
  );
  const warned = [...warnings.map(({ message }) => `- ${message}`), ...ofRecordings];
  return [
    textTable(
      head,
      cells,
      head.map((_, k) => (k < 2 ? 'left' : 'right')),
    ),
    ...(said.length === 0 ? [] : ['', ...said]),
    ...(warned.length === 0 ? [] : ['', 'Warnings:', ...warned]),
  ].join('\n');
}
