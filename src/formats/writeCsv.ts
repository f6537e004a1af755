import { checkOptions, InputError, type OptionKeys, type Recording, type Route, sectionFinder } from '../model';
import type { WrittenLine } from '../route';
import { EVERY_GAP } from './csvHeader';
import { csvTable } from './csvTable';
import { findsItsGaps } from './findsItsGaps';
import { type Matched, matchedColumns } from './Matched';
import { prepareWritten, type Writable, type WriteOptions } from './Writable';
import { writeTime } from './writeTime';

/** Options of {@link writeCsv}. */
export interface WriteCsvOptions extends WriteOptions {
  /** Where the fixes of the one recording lie on a route: adds columns. */
  readonly matched?: Matched;
}

const keys: OptionKeys<WriteCsvOptions> = { identity: true, times: true, matched: true };

/**
 * A table (RFC 4180: commas, CRLF) with a row for each fix, vertex or position; the header names the units. A cell is
 * empty where a number is not known. Names that a spreadsheet would run as a formula get an apostrophe before them, which
 * `readCsv` takes off again.
 *
 * With `matched`, a row tells the place of its fix on the route; by default only what lies between joining the route and
 * leaving it is written. A table holds names and columns but no attributes. Read
 * back, recordings have the same names and the same columns to the last digit.
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
  return csvTable(rows);
}

/** Doubled quotes included, such a name leaves a row short enough to be read. */
const MAX_NAME = 30_000;

type Row = readonly (string | number | null)[];

function* lineRows({ positions }: WrittenLine, route: Route | undefined): Iterable<Row> {
  if (route?.alongTrack === undefined) {
    const high = positions.some((position) => position.length > 2);
    yield ['longitude (deg)', 'latitude (deg)', ...(high ? ['height (m)'] : [])];
    for (const [lon, lat, height] of positions) yield [lon, lat, ...(high ? [height ?? null] : [])];
    return;
  }
  const sectionsAt = sectionFinder(route);
  yield ['longitude (deg)', 'latitude (deg)', 'along-track (m)', 'lateral uncertainty 95 % (m)', 'section'];
  for (const [i, [lon, lat]] of positions.entries()) {
    const s = route.alongTrack[i];
    yield [lon, lat, s, route.lateral95[i], sectionsAt(s).at(0)?.name ?? null];
  }
}

function* recordingRows(
  recordings: readonly Recording[],
  matched: ReturnType<typeof matchedColumns> | undefined,
): Iterable<Row> {
  const optional = (['height', 'hdop', 'satellites', 'accuracy'] as const).filter((key) =>
    recordings.some((recording) => recording[key] !== undefined),
  );
  const titles = { height: 'height (m)', hdop: 'hdop', satellites: 'satellites', accuracy: 'accuracy (m)' };
  const timed = recordings.some(({ time }) => time !== undefined);
  yield [
    'recording',
    recordings.every(findsItsGaps) ? 'segment' : `segment (${EVERY_GAP})`,
    ...(timed ? ['time (UTC)'] : []),
    'longitude (deg)',
    'latitude (deg)',
    ...optional.map((key) => titles[key]),
    ...(matched?.header ?? []),
  ];
  const names = new Set<string>();
  for (const recording of recordings) {
    const { name, lon, lat, time, gapBefore } = recording;
    if (names.has(name)) {
      throw new InputError({ reason: 'ambiguous', argument: 'recordings', rule: 'of different names', value: name });
    }
    if (/\p{Surrogate}/u.test(name) || name.length > MAX_NAME) {
      const rule = `of names without half characters, of at most ${MAX_NAME} characters`;
      throw new InputError({ reason: 'wrong-type', argument: 'recordings', rule, value: name });
    }
    names.add(name);
    let segment = 0;
    for (let i = 0; i < lon.length; i++) {
      if (gapBefore[i]) segment++;
      const at = time?.[i] ?? Number.NaN;
      yield [
        name,
        segment,
        ...(timed ? [Number.isNaN(at) ? null : writeTime(at, `recording.time[${i}]`)] : []),
        lon[i],
        lat[i],
        ...optional.map((key) => recording[key]?.[i] ?? null),
        ...(matched?.cells(i) ?? []),
      ];
    }
  }
}
