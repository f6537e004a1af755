import type { Steps } from '../model';
import type { ReadFile } from './gatherRecordings';
import { IssueLog } from './IssueLog';
import { type ExtraColumns, kmlPlacemark, type RawLine } from './kmlPlacemark';
import { openXml } from './openXml';
import { parseAngle } from './parseAngle';
import { parseNoted } from './parseNoted';
import type { Reading } from './ReadOptions';
import { blankFix, type RawFix, RecordingBuilder } from './RecordingBuilder';
import { Tracks } from './Tracks';
import type { TimeReader } from './timeReader';
import { isZip, MAX_BYTES, unpackKmz } from './unpack';

/** Points from one rest to the next: a millisecond or two. */
const STRIDE = 1000;

/** A point with a time stamp, and the number of its placemark. */
interface StampedPoint {
  readonly line: RawLine;
  readonly placemark: number;
}

/**
 * The placemarks of a KML document or KMZ archive that hold a line or track. Where no line has times, points that each have
 * a time stamp come as one more, in order.
 */
export function* kmlTracks(
  data: string | Uint8Array,
  { readTime, wanted, maxBytes = MAX_BYTES, maxRecordings }: Reading,
): Steps<ReadFile> {
  const packed = typeof data !== 'string' && isZip(data) ? unpackKmz(data, maxBytes) : undefined;
  const { xml, finish } = openXml(packed?.data ?? data, 'kml', 'KML', maxBytes);
  const source = { format: packed ? 'kmz' : 'kml' } as const;
  const tracks = new Tracks(maxRecordings);
  const stamped: StampedPoint[] = [];
  const fileIssues = new IssueLog();
  if (packed && packed.others > 0) fileIssues.note('other-document', () => 'the archive', packed.others);
  let placemarks = 0;
  let timed = false;
  function* addPlacemark(number: number): Steps<void> {
    const place = () => `placemark ${number}`;
    const { lines, points, extra, attributes, name } = yield* kmlPlacemark(xml, fileIssues, place);
    if (lines.length > 0) {
      timed ||= extra.time !== undefined || lines.some(({ times }) => times !== undefined);
      tracks.add({ builder: yield* buildLines(lines, extra, number, readTime), source, attributes, name });
    }
    for (const line of points) {
      if (wanted === 'recordings' && line.times) {
        stamped.push({ line, placemark: number });
      } else fileIssues.note('not-a-line', place);
    }
  }
  const visit = (child: string): Steps<void> | undefined => {
    if (child === 'Placemark') return addPlacemark(++placemarks);
    if (child === 'Document' || child === 'Folder') return xml.eachChildInSteps(visit);
    if (child === 'NetworkLink') fileIssues.note('network-link', () => xml.place());
    return undefined;
  };
  yield* xml.eachChildInSteps(visit);
  // beside lines with times, stamped points are marks on them or the same fixes once more
  if (stamped.length > 0 && timed)
    fileIssues.note('not-recorded', () => `placemark ${stamped[0].placemark}`, stamped.length);
  else if (stamped.length > 0) tracks.add({ builder: yield* buildPoints(stamped, readTime), source, attributes: {} });
  finish(fileIssues, tracks.whole.length);
  return { tracks, fileIssues };
}

function* buildLines(
  lines: readonly RawLine[],
  extra: ExtraColumns,
  placemark: number,
  readTime: TimeReader,
): Steps<RecordingBuilder> {
  let line = 0;
  let point = 0;
  const place = () => `placemark ${placemark}, line ${line}, point ${point}`;
  const builder = new RecordingBuilder(place);
  if (extra.gaps?.[0] === 'stated') builder.gaps = 'stated';
  let row = 0;
  for (const { points, times, clamped } of lines) {
    // KML knows no line of one position: `writeKml` lets one fix alone stand twice
    const alone = extra.count?.[line] === '1';
    line++;
    point = 0;
    builder.breakLine();
    const flat = clamped && sayNothing(points);
    if (flat && hasHeight(points)) builder.issues.note('ground-height', place);
    const count = times && (alone ? 1 : points.length);
    if (times && times.length !== count) {
      builder.issues.note('unmatched-time', place, Math.abs(times.length - count!));
    }
    for (const words of points) {
      if (alone && point > 0) break;
      const time = times?.[point] ?? extra.time?.[row] ?? '';
      point++;
      const fix = blankFix();
      for (const key of ['hdop', 'satellites', 'accuracy'] as const) {
        const word = extra[key]?.[row] ?? '-';
        if (word !== '-') fix[key] = parseNoted(word, 'unreadable-quality', builder.issues, place);
      }
      row++;
      addPoint(builder, fix, words, time, flat, readTime, place);
      if (row % STRIDE === 0) yield;
    }
  }
  for (const key of ['time', 'hdop', 'satellites', 'accuracy'] as const) {
    if (extra[key] && extra[key].length !== row) builder.issues.note('unmatched-column', place);
  }
  return builder;
}

function* buildPoints(stamped: readonly StampedPoint[], readTime: TimeReader): Steps<RecordingBuilder> {
  let at = 0;
  const place = () => `placemark ${stamped[at].placemark}`;
  const builder = new RecordingBuilder(place);
  const flat = stamped.every(({ line }) => line.clamped && sayNothing(line.points));
  if (flat && stamped.some(({ line }) => line.points.first?.[2] !== undefined))
    builder.issues.note('ground-height', place);
  for (at = 0; at < stamped.length; at++) {
    const { points, times } = stamped[at].line;
    addPoint(builder, blankFix(), points.first ?? [], times![0], flat, readTime, place);
    if (at % STRIDE === STRIDE - 1) yield;
  }
  return builder;
}

/** A height of 0 on what is laid on the ground says nothing. */
function sayNothing(points: RawLine['points']): boolean {
  for (const [, , height] of points) if (height !== undefined && Number(height) !== 0) return false;
  return true;
}

function hasHeight(points: RawLine['points']): boolean {
  for (const [, , height] of points) if (height !== undefined) return true;
  return false;
}

function addPoint(
  builder: RecordingBuilder,
  fix: RawFix,
  words: readonly string[],
  time: string,
  flat: boolean,
  readTime: TimeReader,
  place: () => string,
): void {
  if (time !== '-') fix.time = readTime(time, builder.issues, place);
  const [lon, lat, height] = words;
  if (!lon || !lat) {
    builder.drop('missing-position');
    return;
  }
  fix.lon = parseAngle(lon, 'longitude', place);
  fix.lat = parseAngle(lat, 'latitude', place);
  if (height !== undefined && !flat) fix.height = parseNoted(height, 'unreadable-height', builder.issues, place);
  if (words.length > 3) builder.issues.note('extra-numbers', place);
  builder.add(fix);
}
