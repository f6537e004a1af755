import { InputError, type Steps } from '../model';
import { CsvRows } from './CsvRows';
import { type CsvField, csvHeader, EVERY_GAP } from './csvHeader';
import { unguarded } from './csvTable';
import { decodeText } from './decodeText';
import type { ReadFile } from './gatherRecordings';
import { IssueLog } from './IssueLog';
import { instantOf } from './instantOf';
import { parseAngle } from './parseAngle';
import { parseFinite } from './parseDecimal';
import type { Reading } from './ReadOptions';
import { blankFix, RecordingBuilder } from './RecordingBuilder';
import { spelledTime } from './spelledTime';
import { type ReadTrack, Tracks } from './Tracks';
import { MAX_BYTES } from './unpack';
import { withoutPadding } from './withoutPadding';

/** A table may begin with so many lines of something else. */
const MAX_PREAMBLE = 50;

/** Rows from one rest to the next: a millisecond or two. */
const STRIDE = 1000;

const DECIMAL_COMMA = /^[+-]?\d+,\d+$/;

const WEST = /^w(est)?$/i;
const SOUTH = /^s(outh)?$/i;

/** Part of a position that stands in minutes of arc: `lat_min`, `longitude (minutes)`. */
const MINUTES = /^\W*(lat|lon)[a-z]*[\s_([]*min/i;

/** International foot. */
const FOOT = 0.3048;

/** The recordings of a table: one, or one for each name in its column `recording`. */
export function* csvTracks(
  data: string | Uint8Array,
  { readTime, maxBytes = MAX_BYTES, maxRecordings }: Reading,
): Steps<ReadFile> {
  const padded = decodeText(data, maxBytes);
  const text = withoutPadding(padded);
  const { delimiter, header, preamble, titles } = openTable(text);
  const width = titles.length;
  const fileIssues = new IssueLog();
  if (preamble > 0) fileIssues.note('preamble', () => 'line 1', preamble);
  const padding = padded.length - text.length;
  if (padding > 0) fileIssues.note('trailing-bytes', () => `character ${text.length}`, padding);
  const columnOf = (field: CsvField) => header.get(field)?.index ?? -1;
  const at = {
    lon: columnOf('lon'),
    lat: columnOf('lat'),
    eastWest: columnOf('eastWest'),
    northSouth: columnOf('northSouth'),
    time: columnOf('time'),
    date: columnOf('date'),
    height: columnOf('height'),
    hdop: columnOf('hdop'),
    satellites: columnOf('satellites'),
    accuracy: columnOf('accuracy'),
    segment: columnOf('segment'),
    recording: columnOf('recording'),
  };
  /** The rows below the header, gone through anew: a table of millions of rows need not be held twice. */
  function body(): CsvRows {
    const rows = new CsvRows(text, delimiter);
    for (let before = 0; before <= preamble; before++) rows.next();
    return rows;
  }
  function* hasComma(): Steps<boolean> {
    const rows = body();
    for (let count = 1; rows.next(); count++) {
      if (rows.count === width && DECIMAL_COMMA.test(rows.cell(at.lat).trim())) return true;
      if (count % STRIDE === 0) yield;
    }
    return false;
  }
  // between commas that part cells there is none but in quotes
  const comma = (delimiter !== ',' || text.includes('"')) && (yield* hasComma());
  const written = (cell: string) =>
    parseFinite(comma ? plainNumber(cell.trim(), ',', '.') : plainNumber(cell.trim(), '.', ','));
  const rows = body();
  /** As most write it, or with thousands apart, or a comma. */
  const number = (index: number) => {
    if (index < 0) return Number.NaN;
    const value = comma ? Number.NaN : rows.number(index);
    return Number.isFinite(value) ? value : written(rows.cell(index));
  };
  const isBlank = (index: number) => rows.cell(index).trim() === '';
  const place = () => `line ${rows.line}`;
  const angle = (index: number, which: 'longitude' | 'latitude') => {
    const value = comma ? Number.NaN : rows.number(index);
    if (Number.isFinite(value)) return value;
    const cell = rows.cell(index).trim();
    return parseAngle(comma ? cell.replace(',', '.') : cell, which, place);
  };
  /** With the sign of the hemisphere, where a column of its own states it. */
  const signed = (value: number, index: number, negative: RegExp) =>
    index >= 0 && negative.test(rows.cell(index).trim()) ? 0 - Math.abs(value) : value;
  const all = new Tracks(maxRecordings);
  const tracks = new Map<string, CsvTrack>();
  const timeUnit = header.get('time')?.unit ?? '';
  const usesFeet = /^(ft|feet|foot)$/.test(header.get('height')?.unit ?? '');
  const fix = blankFix();
  let track: CsvTrack | undefined;
  let cell = '';
  for (let count = 1; rows.next(); count++) {
    if (count % STRIDE === 0) yield { done: rows.end, of: text.length, what: 'read' };
    // of a logger that writes its header each time it is switched on
    if (rows.says(at.lon, titles[at.lon])) {
      for (const { builder } of tracks.values()) builder.breakLine();
      continue;
    }
    let ragged = rows.count < width;
    for (let i = width; i < rows.count && !ragged; i++) ragged = !isBlank(i);
    if (ragged) {
      fileIssues.note('ragged-row', place);
      continue;
    }
    if (!track || !rows.says(at.recording, cell)) {
      cell = rows.cell(at.recording);
      const name = unguarded(cell);
      track = tracks.get(name);
      if (!track) {
        all.checkCount(tracks.size + 1);
        const builder = new RecordingBuilder(place);
        if (header.get('segment')?.unit === EVERY_GAP) builder.gaps = 'stated';
        track = { builder, source: { format: 'csv' }, attributes: {}, segment: rows.cell(at.segment), name };
        tracks.set(name, track);
        if (comma) builder.issues.note('decimal-comma', place);
      }
    }
    const { builder } = track;
    if (!rows.says(at.segment, track.segment)) {
      const before = track.segment.trim();
      track.segment = rows.cell(at.segment);
      if (track.segment.trim() !== before) builder.breakLine();
    }
    fix.time = timeOf(builder);
    fix.height = number(at.height) * (usesFeet ? FOOT : 1);
    if (Number.isNaN(fix.height)) {
      if (!isBlank(at.height)) builder.issues.note('unreadable-height', place);
    } else if (usesFeet) builder.issues.note('converted-feet', place);
    for (const field of ['hdop', 'satellites', 'accuracy'] as const) {
      fix[field] = number(at[field]);
      if (Number.isNaN(fix[field]) && !isBlank(at[field])) builder.issues.note('unreadable-quality', place);
    }
    if (isBlank(at.lon) || isBlank(at.lat)) builder.drop('missing-position');
    else {
      fix.lon = signed(angle(at.lon, 'longitude'), at.eastWest, WEST);
      fix.lat = signed(angle(at.lat, 'latitude'), at.northSouth, SOUTH);
      builder.add(fix);
    }
  }
  for (const each of tracks.values()) all.add(each);
  return { tracks: all, fileIssues };

  function timeOf({ issues }: RecordingBuilder): number {
    const [date, clock] = [rows.cell(at.date).trim(), rows.cell(at.time).trim()];
    const time = spelledTime(date && clock ? `${date}T${clock}` : date || clock);
    // no number has a colon
    const counted = time.includes(':') ? Number.NaN : written(time);
    if (Number.isNaN(counted)) return readTime(time, issues, place);
    // a small one counts seconds from the start
    return timeUnit === 'ms' ? counted : instantOf(counted);
  }
}

/** A track, and the segment that its last row states. */
interface CsvTrack extends ReadTrack {
  segment: string;
}

/** The table under the delimiter that makes a header of one of its first rows. */
function openTable(text: string): {
  delimiter: string;
  header: NonNullable<ReturnType<typeof csvHeader>>;
  /** Rows before the header. */
  preamble: number;
  /** Cells of the header. */
  titles: readonly string[];
} {
  for (const delimiter of [',', ';', '\t', '|']) {
    // only one delimiter fits a header, so that the table is gone through once
    const start = text.slice(0, 65_536);
    if (!start.split(/[\r\n]+/, MAX_PREAMBLE).some((row) => csvHeader(row.split(delimiter)))) continue;
    let preamble = 0;
    const rows = new CsvRows(text, delimiter);
    while (preamble < MAX_PREAMBLE && rows.next()) {
      const header = csvHeader(rows.cells());
      if (header) {
        const titles = rows.cells();
        const minutes = titles.find((title) => MINUTES.test(title));
        // beside a greatest one it is the least of several
        if (minutes === undefined || /max/i.test(titles.join())) return { delimiter, header, preamble, titles };
        const rule = 'a table of decimal degrees';
        throw new InputError({ reason: 'unreadable', argument: 'data', rule, value: minutes });
      }
      preamble++;
    }
  }
  // the rows are gone through all the same: a row too long is the better reason
  const rows = new CsvRows(text, ',');
  while (rows.next());
  throw new InputError({
    reason: 'unreadable',
    argument: 'data',
    rule: 'a table whose header names a longitude and a latitude',
    value: text.trimStart(),
  });
}

/** A number without its thousands separators, its decimal mark a point. */
function plainNumber(text: string, mark: ',' | '.', separator: ',' | '.'): string {
  const grouped = mark === ',' ? /^[+-]?\d{1,3}(?:[.' ]\d{3})+(?:,\d+)?$/ : /^[+-]?\d{1,3}(?:[,' ]\d{3})+(?:\.\d+)?$/;
  const joined = grouped.test(text) ? text.replaceAll(separator, '').replace(/[' ]/g, '') : text;
  return mark === ',' ? joined.replace(',', '.') : joined;
}
