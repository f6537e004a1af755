import type { ReadFile, ReadTrack } from './gatherRecordings';
import { IssueLog } from './IssueLog';
import type { LocalTime } from './localTime';
import { openXml } from './openXml';
import { parseAngle } from './parseAngle';
import { parseFinite } from './parseDecimal';
import { parseTime } from './parseTime';
import { blankFix, type RawFix, RecordingBuilder } from './RecordingBuilder';
import { typedValue } from './typedValue';
import { isZip, unpackKmz } from './unpack';
import type { XmlScanner } from './XmlScanner';

/** Columns beside the coordinates that `writeKml` leaves in `ExtendedData`. */
type ExtraColumns = Partial<Record<'time' | 'hdop' | 'satellites' | 'accuracy' | 'count', string[]>>;

/** A line of a placemark before its times are known: they may stand after it. */
interface RawLine {
  /** Words of one point each: longitude, latitude, height. */
  readonly points: readonly (readonly string[])[];
  readonly times?: readonly string[];
  readonly clamped: boolean;
  readonly name?: string;
}

/** The placemarks of a KML document or KMZ archive that hold a line or track. */
export function kmlTracks(data: string | Uint8Array, local: LocalTime): ReadFile {
  const packed = data instanceof Uint8Array && isZip(data);
  const { xml, finish } = openXml(packed ? unpackKmz(data) : data, 'kml', 'KML');
  const source = { format: packed ? 'kmz' : 'kml' } as const;
  const tracks: ReadTrack[] = [];
  const fileIssues = new IssueLog();
  const visit = (child: string) => {
    if (child === 'Placemark') {
      const track = readPlacemark(xml, tracks.length + 1, local, fileIssues);
      if (track) tracks.push({ ...track, source });
    } else if (child === 'NetworkLink') fileIssues.note('network-link', () => xml.place());
    else if (child === 'Document' || child === 'Folder') xml.eachChild(visit);
  };
  xml.eachChild(visit);
  finish(fileIssues);
  return { tracks, fileIssues };
}

function readPlacemark(
  xml: XmlScanner,
  number: number,
  local: LocalTime,
  fileIssues: IssueLog,
): Omit<ReadTrack, 'source'> | undefined {
  const lines: RawLine[] = [];
  const extra: ExtraColumns = {};
  const attributes: Record<string, string | number | boolean> = {};
  let name: string | undefined;
  const visit = (child: string) => {
    switch (child) {
      case 'LineString':
        lines.push(readLineString(xml));
        break;
      case 'Track':
        lines.push(readTrack(xml));
        break;
      case 'MultiGeometry':
      case 'MultiTrack':
        xml.eachChild(visit);
        break;
      case 'Point':
      case 'Polygon':
      case 'LinearRing':
      case 'Model':
        fileIssues.note('not-a-line', () => xml.place());
        break;
      case 'name':
        name ??= xml.content();
        break;
      case 'description':
        attributes.description = xml.content();
        break;
      case 'ExtendedData':
        xml.eachChild((inner) => {
          if (inner === 'Data') readData(xml, extra, attributes);
        });
        break;
    }
  };
  xml.eachChild(visit);
  if (lines.length === 0) return undefined;
  let line = 0;
  let point = 0;
  const place = () => `placemark ${number}, line ${line}, point ${point}`;
  const builder = new RecordingBuilder(place);
  let row = 0;
  for (const { points: written, times, clamped } of lines) {
    // KML knows no line of one position: `writeKml` lets one fix alone stand twice
    const points = extra.count?.[line] === '1' ? written.slice(0, 1) : written;
    line++;
    point = 0;
    builder.breakLine();
    // a height of 0 on a line that is laid on the ground says nothing
    const flat = clamped && points.every(([, , height]) => height === undefined || Number(height) === 0);
    if (flat && points.some(([, , height]) => height !== undefined)) builder.issues.note('ground-height', place);
    if (times && times.length !== points.length) {
      builder.issues.note('unmatched-time', place, Math.abs(times.length - points.length));
    }
    for (const words of points) {
      const time = times?.[point] ?? extra.time?.[row] ?? '';
      point++;
      const fix = blankFix();
      for (const key of ['hdop', 'satellites', 'accuracy'] as const) fix[key] = parseFinite(extra[key]?.[row] ?? '');
      row++;
      fix.time = parseTime(time, local);
      if (Number.isNaN(fix.time) && time !== '' && time !== '-') builder.issues.note('unreadable-time', place);
      addPoint(builder, fix, words, flat, place);
    }
  }
  return { builder, attributes, name };
}

function addPoint(
  builder: RecordingBuilder,
  fix: RawFix,
  words: readonly string[],
  flat: boolean,
  place: () => string,
) {
  const [lon, lat, height] = words;
  if (!lon || !lat) return builder.drop('missing-position');
  fix.lon = parseAngle(lon, 'longitude', place);
  fix.lat = parseAngle(lat, 'latitude', place);
  if (height !== undefined && !flat) {
    fix.height = parseFinite(height);
    if (Number.isNaN(fix.height) && height !== '') builder.issues.note('unreadable-height', place);
  }
  builder.add(fix);
}

function readLineString(xml: XmlScanner): RawLine {
  let text = '';
  let clamped = true;
  xml.eachChild((child) => {
    if (child === 'coordinates') text = xml.content().trim();
    else if (child === 'altitudeMode') clamped = xml.content().trim().startsWith('clamp');
  });
  return { points: text === '' ? [] : text.split(/\s+/).map((tuple) => tuple.split(',')), clamped };
}

/** `when` and `coord` are parallel: the first of each belong together, wherever they stand. */
function readTrack(xml: XmlScanner): RawLine {
  const times: string[] = [];
  const points: string[][] = [];
  let clamped = true;
  xml.eachChild((child) => {
    if (child === 'when') times.push(xml.content().trim());
    else if (child === 'coord') {
      const text = xml.content().trim();
      points.push(text === '' ? [] : text.split(/[\s,]+/));
    } else if (child === 'altitudeMode') clamped = xml.content().trim().startsWith('clamp');
  });
  return { points, ...(times.length > 0 ? { times } : {}), clamped };
}

function readData(xml: XmlScanner, extra: ExtraColumns, attributes: Record<string, string | number | boolean>): void {
  const key = xml.attribute('name') ?? '';
  let text = '';
  xml.eachChild((child) => {
    if (child === 'value') text = xml.content();
  });
  const column = /^fix (time|hdop|satellites|accuracy|count)$/.exec(key)?.[1] as keyof ExtraColumns | undefined;
  const own = /^attribute (string|number|boolean) (.*)$/s.exec(key);
  if (column) extra[column] = text.split(' ');
  else if (own) attributes[own[2]] = typedValue(text, own[1]);
  else if (key !== '') attributes[key] = text;
}
