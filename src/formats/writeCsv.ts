import { checkOptions, InputError, type OptionKeys, type Recording, type Route } from '../model';
import type { WrittenLine } from '../route';
import { type Matched, matchedColumns, sectionAt } from './Matched';
import { prepareWritten, type Writable, type WriteOptions } from './Writable';
import { writeDecimal } from './writeDecimal';
import { writeTime } from './writeTime';

/** Options of {@link writeCsv}. */
export interface WriteCsvOptions extends WriteOptions {
  /** Where the fixes of the one recording lie on a route: adds columns. */
  readonly matched?: Matched;
}

const keys: OptionKeys<WriteCsvOptions> = { identity: true, times: true, matched: true };

/**
 * A table (RFC 4180: commas, CRLF) with a row for each fix, vertex or position; the header names the units. A cell is
 * empty where a number is not known.
 *
 * With `matched`, a row tells the place of its fix on the route; by default only what lies between joining the route and
 * leaving it is written. A table holds names and columns but no attributes. Read back, recordings have the same columns to the last digit.
 *
 * @example
 * writeCsv([[5, 60], [5.01, 60]]).split('\r\n')[1] // → '5,60'
 * writeCsv([[5, 60], [5.01, 60]]).split('\r\n')[0] // → 'longitude (deg),latitude (deg)'
 *
 * @throws {InputError} as {@link writeGpx}; `ambiguous` for two recordings of one name; `misplaced` for `matched` with
 * anything but one recording
 * @see RFC 4180, 2005
 */
export function writeCsv(what: Writable, options: WriteCsvOptions = {}): string {
  checkOptions(options, keys);
  const { matched, ...rest } = options;
  const written = prepareWritten(what, { ...rest, corridor: 'none' }, matched);
  const rows =
    written.kind === 'lines'
      ? lineRows(written.lines[0], written.route)
      : recordingRows(written.recordings, written.matched && matchedColumns(written.matched));
  return rows.map((cells) => `${cells.map(quoted).join(',')}\r\n`).join('');
}

function lineRows({ positions }: WrittenLine, route: Route | undefined): string[][] {
  if (route?.alongTrack === undefined) {
    const high = positions.some((position) => position.length > 2);
    return [
      ['longitude (deg)', 'latitude (deg)', ...(high ? ['height (m)'] : [])],
      ...positions.map(([lon, lat, height]) => [
        writeDecimal(lon),
        writeDecimal(lat),
        ...(high ? [number(height ?? Number.NaN)] : []),
      ]),
    ];
  }
  return [
    ['longitude (deg)', 'latitude (deg)', 'along-track (m)', 'lateral uncertainty 95 % (m)', 'section'],
    ...positions.map(([lon, lat], i) => {
      const s = route.alongTrack[i];
      const section = sectionAt(route, s)?.name ?? '';
      return [writeDecimal(lon), writeDecimal(lat), writeDecimal(s), number(route.lateral95[i]), section];
    }),
  ];
}

function recordingRows(
  recordings: readonly Recording[],
  matched: { readonly header: readonly string[]; readonly cells: (fix: number) => string[] } | undefined,
): string[][] {
  const optional = (['height', 'hdop', 'satellites', 'accuracy'] as const).filter((key) =>
    recordings.some((recording) => recording[key] !== undefined),
  );
  const titles = { height: 'height (m)', hdop: 'hdop', satellites: 'satellites', accuracy: 'accuracy (m)' };
  const timed = recordings.some(({ time }) => time !== undefined);
  const header = [
    'recording',
    'segment',
    ...(timed ? ['time (UTC)'] : []),
    'longitude (deg)',
    'latitude (deg)',
    ...optional.map((key) => titles[key]),
    ...(matched?.header ?? []),
  ];
  const rows = [header];
  const names = new Set<string>();
  for (const recording of recordings) {
    const { name, lon, lat, time, gapBefore } = recording;
    if (names.has(name)) {
      throw new InputError({ reason: 'ambiguous', argument: 'recordings', rule: 'of different names', value: name });
    }
    names.add(name);
    let segment = 0;
    for (let i = 0; i < lon.length; i++) {
      if (gapBefore[i]) segment++;
      const at = time?.[i] ?? Number.NaN;
      rows.push([
        name,
        String(segment),
        ...(timed ? [Number.isNaN(at) ? '' : writeTime(at, `recording.time[${i}]`)] : []),
        writeDecimal(lon[i]),
        writeDecimal(lat[i]),
        ...optional.map((key) => number(recording[key]?.[i] ?? Number.NaN)),
        ...(matched?.cells(i) ?? []),
      ]);
    }
  }
  return rows;
}

const number = (value: number) => (Number.isNaN(value) ? '' : writeDecimal(value));

const quoted = (cell: string) => (/[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);
