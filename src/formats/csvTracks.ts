import { InputError, type Steps } from '../model';
import { type CsvField, csvHeader, EVERY_GAP } from './csvHeader';
import { type CsvRow, csvRows } from './csvRows';
import { unguarded } from './csvTable';
import { decodeText } from './decodeText';
import type { ReadFile } from './gatherRecordings';
import { IssueLog } from './IssueLog';
import { parseAngle } from './parseAngle';
import { parseFinite } from './parseDecimal';
import type { Reading } from './ReadOptions';
import { blankFix, RecordingBuilder } from './RecordingBuilder';
import { type ReadTrack, Tracks } from './Tracks';
import { MAX_BYTES } from './unpack';

/** A table may begin with so many lines of something else. */
const MAX_PREAMBLE = 50;

/** Rows from one rest to the next: a millisecond or two. */
const STRIDE = 1000;

const DECIMAL_COMMA = /^[+-]?\d+,\d+$/;

/** International foot. */
const FOOT = 0.3048;

/** The recordings of a table: one, or one for each name in its column `recording`. */
export function* csvTracks(
  data: string | Uint8Array,
  { readTime, maxBytes = MAX_BYTES, maxRecordings }: Reading,
): Steps<ReadFile> {
  const text = decodeText(data, maxBytes);
  const { delimiter, header, preamble, width } = openTable(text);
  const fileIssues = new IssueLog();
  if (preamble > 0) fileIssues.note('preamble', () => 'line 1', preamble);
  /** The rows below the header, one at a time: a table of millions of rows need not be held twice. */
  function* body() {
    let before = -1;
    for (const row of csvRows(text, delimiter)) if (++before > preamble) yield row;
  }
  const cellOf = (row: CsvRow, field: CsvField) => row.cells[header.get(field)?.index ?? -1]?.trim() ?? '';
  function* hasComma(): Steps<boolean> {
    let rows = 0;
    for (const row of body()) {
      if (row.cells.length === width && DECIMAL_COMMA.test(cellOf(row, 'lat'))) return true;
      if (++rows % STRIDE === 0) yield;
    }
    return false;
  }
  // between commas that part cells there is none but in quotes
  const comma = (delimiter !== ',' || text.includes('"')) && (yield* hasComma());
  const number = (text: string) => parseFinite(comma ? plainNumber(text, ',', '.') : plainNumber(text, '.', ','));
  const here = { line: 0 };
  const place = () => `line ${here.line}`;
  const all = new Tracks(maxRecordings);
  const tracks = new Map<string, ReadTrack & { segment: string }>();
  const timeUnit = header.get('time')?.unit ?? '';
  const usesFeet = /^(ft|feet|foot)$/.test(header.get('height')?.unit ?? '');
  let rows = 0;
  for (const row of body()) {
    here.line = row.line;
    if (++rows % STRIDE === 0) yield { done: row.end, of: text.length, what: 'read' };
    if (row.cells.length < width || row.cells.slice(width).some((cell) => cell.trim() !== '')) {
      fileIssues.note('ragged-row', place);
      continue;
    }
    const name = unguarded(row.cells[header.get('recording')?.index ?? -1] ?? '');
    let track = tracks.get(name);
    if (!track) {
      all.checkCount(tracks.size + 1);
      const builder = new RecordingBuilder(place);
      if (header.get('segment')?.unit === EVERY_GAP) builder.gaps = 'stated';
      track = { builder, source: { format: 'csv' }, attributes: {}, segment: cellOf(row, 'segment'), name };
      tracks.set(name, track);
      if (comma) builder.issues.note('decimal-comma', place);
    }
    const { builder } = track;
    if (cellOf(row, 'segment') !== track.segment) {
      track.segment = cellOf(row, 'segment');
      builder.breakLine();
    }
    const fix = blankFix();
    const time = [cellOf(row, 'date'), cellOf(row, 'time')].filter(Boolean).join('T');
    const counted = number(time);
    fix.time = Number.isNaN(counted) ? readTime(time, builder.issues, place) : instantOf(counted, timeUnit);
    const height = cellOf(row, 'height');
    fix.height = number(height) * (usesFeet ? FOOT : 1);
    if (Number.isNaN(fix.height) && height !== '') builder.issues.note('unreadable-height', place);
    else if (usesFeet && height !== '') builder.issues.note('converted-feet', place);
    for (const field of ['hdop', 'satellites', 'accuracy'] as const) {
      const quality = cellOf(row, field);
      fix[field] = number(quality);
      if (Number.isNaN(fix[field]) && quality !== '') builder.issues.note('unreadable-quality', place);
    }
    const [lon, lat] = [cellOf(row, 'lon'), cellOf(row, 'lat')];
    if (lon === '' || lat === '') builder.drop('missing-position');
    else {
      fix.lon = parseAngle(comma ? lon.replace(',', '.') : lon, 'longitude', place);
      fix.lat = parseAngle(comma ? lat.replace(',', '.') : lat, 'latitude', place);
      builder.add(fix);
    }
  }
  for (const track of tracks.values()) all.add(track);
  return { tracks: all, fileIssues };
}

/** The table under the delimiter that makes a header of one of its first rows. */
function openTable(text: string): {
  delimiter: string;
  header: NonNullable<ReturnType<typeof csvHeader>>;
  /** Rows before the header. */
  preamble: number;
  /** Cells of the header. */
  width: number;
} {
  for (const delimiter of [',', ';', '\t', '|']) {
    // only one delimiter fits a header, so that the table is gone through once
    const start = text.slice(0, 65_536);
    if (!start.split(/[\r\n]+/, MAX_PREAMBLE).some((row) => csvHeader(row.split(delimiter)))) continue;
    let preamble = 0;
    for (const { cells } of csvRows(text, delimiter)) {
      const header = csvHeader(cells);
      if (header) return { delimiter, header, preamble, width: cells.length };
      if (++preamble === MAX_PREAMBLE) break;
    }
  }
  // the rows are gone through all the same: a row too long is the better reason
  for (const _ of csvRows(text, ','));
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

/**
 * A count of milliseconds or seconds since 1970, told apart by their size; a smaller number counts seconds from the start.
 */
const instantOf = (count: number, unit: string) => (unit === 'ms' || Math.abs(count) >= 1e11 ? count : count * 1000);
