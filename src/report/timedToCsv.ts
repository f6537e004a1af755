import { csvTable } from '../formats';
import { checkArray, checkMembers, checkOptions, InputError, type OptionKeys } from '../model';
import type { ErrorOverRuns, FigureOverRuns, SizeOverRuns, TimedSummary, TimedSummaryRow } from '../runs';
import type { ErrorFigure, ErrorFigures, TimedAssessment, TimedRow } from '../truth';

/** Options of {@link timedToCsv}. */
export interface TimedToCsvOptions {
  /** What the runs say together, by `combineByTime` or `combine`: lines without a run or a recording. @defaultValue none */
  readonly summary?: TimedSummary;
}

const optionKeys: OptionKeys<TimedToCsvOptions> = { summary: true };

const header = [
  'run',
  'receiver',
  'placement',
  'recording',
  'section',
  'component',
  'metric',
  'value',
  'unit',
] as const;

const figures = ['mean', 'sd', 'rms', 'p50', 'p68', 'p75', 'p95', 'max'] as const;

/**
 * Every figure of timed assessments, one or several, as a table by RFC 4180: one line for each recording, section, component of the error
 * and metric, with its unit ("m", "s"; 1 is a share or a count); lines end in CR LF, a figure that the data can't give is an
 * empty cell, the whole an empty section.
 *
 * Components are `horizontal`, `along`, `across`, `up`, `circular` and, with the delay taken out, the same after `undelayed`;
 * what is of the recording itself has none. Beside each figure stand the ends of its interval, `mean 95 % low`.
 *
 * Names that a spreadsheet would run as a formula get an apostrophe before them.
 *
 * @throws {InputError} something that is no timed assessment, a summary that is none, unknown options
 * @see RFC 4180, Common Format and MIME Type for Comma-Separated Values Files, section 2
 *
 * @example
 * const at = (second) => [new Date(Date.UTC(2031, 0, 1) + 1000 * second).toISOString(), 5 + second / 20000, 60].join()
 * const walk = readCsv('time,lon,lat\n' + Array.from({ length: 60 }, (_, i) => at(i)).join('\n'), { name: 'walk' })[0]
 * const late = { ...walk, lat: walk.lat.map((y) => y + 1e-5), time: walk.time.map((t) => t + 2000) }
 * timedToCsv(judgeByTime(walk, [late])).split('\r\n')[1].startsWith(',,,walk,,horizontal,mean,5.') // → true
 */
export function timedToCsv(
  timed: TimedAssessment | readonly TimedAssessment[],
  options: TimedToCsvOptions = {},
): string {
  checkOptions(options, optionKeys);
  const { summary } = options;
  const several: readonly TimedAssessment[] = Array.isArray(timed) ? Array.from(timed) : [timed as TimedAssessment];
  const named = (i: number) => (Array.isArray(timed) ? `timed[${i}]` : 'timed');
  several.forEach((one, i) => {
    const argument = named(i);
    checkMembers<TimedAssessment>(one, members, argument);
    checkArray(one.rows, `${argument}.rows`);
    checkArray(one.recordings, `${argument}.recordings`);
  });
  if (summary !== undefined) checkMembers<TimedSummary>(summary, summaryMembers, 'options.summary');
  return csvTable(linesOf(several, named, summary));
}

/** Line by line, so that none is held when it is written. */
function* linesOf(
  several: readonly TimedAssessment[],
  named: (i: number) => string,
  summary: TimedSummary | undefined,
): Iterable<readonly (string | number | null)[]> {
  yield header;
  for (const [i, { rows, recordings }] of several.entries()) {
    const byName = new Map(recordings.map((one) => [one?.name, one]));
    for (const [k, row] of rows.entries()) {
      const recorded = byName.get(row?.recording);
      if (recorded === undefined) {
        const argument = `${named(i)}.rows[${k}].recording`;
        throw new InputError({ reason: 'wrong-type', argument, rule: 'one of the recordings', value: row?.recording });
      }
      const { run, receiver, placement } = recorded;
      const about = [run, receiver, placement, row.recording, row.section];
      for (const cells of cellsOf(row)) yield [...about, ...cells];
    }
  }
  for (const row of summary?.rows ?? []) {
    const about = [null, row.receiver, null, null, row.section];
    for (const cells of cellsOver(row)) yield [...about, ...cells];
  }
}

const members = {
  schema: 'must',
  truth: 'must',
  recordings: 'must',
  rows: 'must',
  pairs: 'must',
  method: 'must',
  warnings: 'must',
} as const;

const summaryMembers = {
  runs: 'must',
  receivers: 'must',
  baseline: 'must',
  sections: 'must',
  rows: 'must',
  pairs: 'must',
  sentences: 'must',
  warnings: 'must',
} as const;

type Cell = [component: string, metric: string, value: number | null, unit: string];

/** A figure and the ends of its interval. */
function withEnds(
  component: string,
  metric: string,
  value: number | null,
  interval: readonly [number, number] | null | undefined,
  unit: string,
): Cell[] {
  return [
    [component, metric, value, unit],
    [component, `${metric} 95 % low`, interval?.[0] ?? null, unit],
    [component, `${metric} 95 % high`, interval?.[1] ?? null, unit],
  ];
}

function cellsOf(row: TimedRow): Cell[] {
  return [
    ...errorCells(row, ''),
    ...withEnds('', 'delay', row.delay?.seconds ?? null, row.delay?.interval95, 's'),
    ...(row.delay ? errorCells(row.delay.removed, 'undelayed ') : []),
    ['', 'seconds', row.seconds, 's'],
    ['', 'judged', row.judged, 's'],
    ['', 'moving', row.moving, 's'],
    ['', 'availability', row.availability, '1'],
    ['', 'longest outage', row.longestOutage?.seconds ?? 0, 's'],
    ['', 'uncertainty of the truth 95 %', row.doubt95, 'm'],
    ['', 'effective samples', row.effectiveSamples, '1'],
  ];
}

const components = ['horizontal', 'along', 'across', 'up'] as const;

function errorCells(errors: ErrorFigures, prefix: string): Cell[] {
  const circles = errors.circularIntervals95;
  const ends = (figure: ErrorFigure | null, metric: (typeof figures)[number]) => {
    if (metric === 'max') return undefined;
    return metric === 'mean' ? figure?.interval95 : figure?.intervals95?.[metric];
  };
  return [
    ...components.flatMap((component) =>
      figures.flatMap((metric): Cell[] => {
        const figure = errors[component];
        const name = `${prefix}${component}`;
        const value = figure?.[metric] ?? null;
        // the largest is what was found: it has no interval
        return metric === 'max'
          ? [[name, metric, value, 'm']]
          : withEnds(name, metric, value, ends(figure, metric), 'm');
      }),
    ),
    ...withEnds(`${prefix}circular`, 'cep50', errors.cep50, circles?.cep50, 'm'),
    ...withEnds(`${prefix}circular`, 'ce95', errors.ce95, circles?.ce95, 'm'),
  ];
}

function cellsOver(row: TimedSummaryRow): Cell[] {
  const over = (
    component: string,
    metric: string,
    figure: FigureOverRuns | SizeOverRuns | null | undefined,
    unit: string,
  ) => withEnds(component, metric, figure?.mean ?? null, figure?.interval95, unit);
  const errorOver = (component: string, error: ErrorOverRuns | null): Cell[] => [
    ...over(component, 'mean', error, 'm'),
    ...(['sd', 'rms', 'p50', 'p68', 'p75', 'p95'] as const).flatMap((metric) =>
      over(component, metric, error?.[metric], 'm'),
    ),
    [component, 'max', error?.max ?? null, 'm'],
    [component, 'sd between runs', error?.betweenRunSd ?? null, 'm'],
  ];
  return [
    ...components.flatMap((component) => errorOver(component, row[component])),
    ...over('circular', 'cep50', row.cep50, 'm'),
    ...over('circular', 'ce95', row.ce95, 'm'),
    ...over('', 'delay', row.delay, 's'),
    ['', 'runs', row.runs, '1'],
    ['', 'availability', row.availability, '1'],
    ['', 'longest outage', row.longestOutage?.seconds ?? 0, 's'],
    ['', 'uncertainty of the truth 95 %', row.doubt95, 'm'],
  ];
}
