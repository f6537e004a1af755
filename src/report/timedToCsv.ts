import { csvTable } from '../formats';
import { checkMembers } from '../model';
import type { ErrorFigures, TimedAssessment, TimedRow } from '../truth';

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
 * Every figure of a timed assessment as a table by RFC 4180: one line for each recording, section, component of the error
 * and metric, with its unit ("m", "s"; 1 is a share or a count); lines end in CR LF, a figure that the data can't give is an
 * empty cell, the whole an empty section.
 *
 * Components are `horizontal`, `along`, `across`, `up`, `circular` and, with the delay taken out, the same after `undelayed`;
 * what is of the recording itself has none.
 *
 * Names that a spreadsheet would run as a formula get an apostrophe before them.
 *
 * @throws {InputError} something that is no timed assessment
 * @see RFC 4180, Common Format and MIME Type for Comma-Separated Values Files, section 2
 *
 * @example
 * const at = (second) => [new Date(Date.UTC(2031, 0, 1) + 1000 * second).toISOString(), 5 + second / 20000, 60].join()
 * const walk = readCsv('time,lon,lat\n' + Array.from({ length: 60 }, (_, i) => at(i)).join('\n'), { name: 'walk' })[0]
 * const late = { ...walk, lat: walk.lat.map((y) => y + 1e-5), time: walk.time.map((t) => t + 2000) }
 * timedToCsv(judgeByTime(walk, [late])).split('\r\n')[1].startsWith(',,,walk,,horizontal,mean,5.') // → true
 */
export function timedToCsv(timed: TimedAssessment): string {
  checkMembers<TimedAssessment>(
    timed,
    {
      schema: 'must',
      truth: 'must',
      recordings: 'must',
      rows: 'must',
      pairs: 'must',
      method: 'must',
      warnings: 'must',
    },
    'timed',
  );
  const lines: (string | number | null)[][] = [[...header]];
  for (const row of timed.rows) {
    const { run, receiver, placement } = timed.recordings.find(({ name }) => name === row.recording)!;
    const about = [run, receiver, placement, row.recording, row.section];
    for (const [component, metric, value, unit] of cellsOf(row)) lines.push([...about, component, metric, value, unit]);
  }
  return csvTable(lines);
}

type Cell = [component: string, metric: string, value: number | null, unit: string];

function cellsOf(row: TimedRow): Cell[] {
  return [
    ...errorCells(row, ''),
    ['', 'delay', row.delay?.seconds ?? null, 's'],
    ['', 'delay 95 % low', row.delay?.interval95?.[0] ?? null, 's'],
    ['', 'delay 95 % high', row.delay?.interval95?.[1] ?? null, 's'],
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

function errorCells(errors: ErrorFigures, prefix: string): Cell[] {
  const components = (['horizontal', 'along', 'across', 'up'] as const).flatMap((component): Cell[] => {
    const figure = errors[component];
    const name = `${prefix}${component}`;
    return [
      ...figures.map((metric): Cell => [name, metric, figure?.[metric] ?? null, 'm']),
      [name, 'mean 95 % low', figure?.interval95?.[0] ?? null, 'm'],
      [name, 'mean 95 % high', figure?.interval95?.[1] ?? null, 'm'],
    ];
  });
  return [
    ...components,
    [`${prefix}circular`, 'cep50', errors.cep50, 'm'],
    [`${prefix}circular`, 'ce95', errors.ce95, 'm'],
  ];
}
