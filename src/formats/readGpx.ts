import { gatherRecordings, type ReadTrack } from './gatherRecordings';
import { IssueLog } from './IssueLog';
import { type LocalTime, localTime } from './localTime';
import { openXml } from './openXml';
import { parseAngle } from './parseAngle';
import { parseFinite } from './parseDecimal';
import { parseTime } from './parseTime';
import { checkReadOptions, type ReadOptions } from './ReadOptions';
import type { Recording } from './Recording';
import { blankFix, RecordingBuilder } from './RecordingBuilder';
import type { XmlScanner } from './XmlScanner';

/**
 * Every track of a GPX document (1.0 or 1.1) as a recording, its segments kept apart by `gapBefore`.
 *
 * Elements are known by their local names, so that prefixes and extensions do no harm. Points without position, at 0, 0, or
 * with `fix` `none` are dropped, points without time or height kept; each kind is one entry of `issues`. Routes and
 * waypoints are not recordings and are left out, said so in `issues`.
 *
 * @example
 * const point = (lon, time) => `<trkpt lat="60" lon="${lon}"><time>2026-05-01T08:00:0${time}Z</time></trkpt>`;
 * const gpx = `<gpx version="1.1"><trk><name>quay</name>
 *   <trkseg>${point(5, 0)}${point(5.00002, 1)}</trkseg><trkseg>${point(5.00006, 3)}</trkseg></trk></gpx>`;
 * const [recording] = readGpx(gpx);
 * recording.name // → 'quay'
 * recording.gapBefore // → [1, 0, 1]
 * readGpx('<gpx><trk><trkseg><trkpt lat="95" lon="5"/></trkseg></trk></gpx>') // throws swapped: must be within [-90, 90]
 *
 * @throws {InputError} `too-few` (empty, or no track of 2 points), `unreadable` (not XML, or not GPX), `swapped` or
 * `out-of-range` (a position not on the globe), `not-finite`, `missing` (times without a zone and no `zone` option),
 * `too-large`
 * @see GPX 1.1 schema, http://www.topografix.com/GPX/1/1
 */
export function readGpx(data: string | Uint8Array, options?: ReadOptions): Recording[] {
  const { name, zone } = checkReadOptions(options);
  const local = localTime(zone);
  const { xml, blanks } = openXml(data, 'gpx', 'GPX');
  const source: Record<string, unknown> & { format: 'gpx' } = { format: 'gpx' };
  for (const key of ['version', 'creator']) {
    const value = xml.attribute(key);
    if (value !== undefined) source[key] = value;
  }
  const tracks: ReadTrack[] = [];
  const fileIssues = new IssueLog();
  let routes = 0;
  xml.eachChild((child) => {
    if (child === 'trk') tracks.push({ ...readTrack(xml, tracks.length + 1, local), source });
    if (child === 'rte') routes++;
    if (child === 'rte' || child === 'wpt') fileIssues.note('not-recorded', () => xml.place());
  });
  xml.finish();
  if (xml.bareAmpersands > 0) fileIssues.note('bare-ampersand', () => xml.bareAmpersandPlace, xml.bareAmpersands);
  if (blanks > 0) fileIssues.note('leading-blanks', () => 'line 1');
  return gatherRecordings(tracks, { name, fileIssues, ...(routes > 0 ? { hint: 'readLines reads its routes' } : {}) });
}

function readTrack(xml: XmlScanner, number: number, local: LocalTime): Omit<ReadTrack, 'source'> {
  let segment = 0;
  let point = 0;
  const place = () => `track ${number}, segment ${segment}, point ${point}`;
  const builder = new RecordingBuilder(place);
  const attributes: Record<string, string | number | boolean> = {};
  let name: string | undefined;
  xml.eachChild((child) => {
    switch (child) {
      case 'trkseg':
        segment++;
        point = 0;
        builder.breakLine();
        xml.eachChild((inner) => {
          if (inner !== 'trkpt') return;
          point++;
          readPoint(xml, builder, place, local);
        });
        break;
      case 'name':
        name = xml.content();
        break;
      case 'number':
        attributes.number = typedValue(xml.content(), 'number');
        break;
      case 'cmt':
      case 'desc':
      case 'src':
      case 'type':
        attributes[child] = xml.content();
        break;
      case 'extensions':
        xml.eachChild((inner) => {
          const key = xml.attribute('name');
          const type = xml.attribute('type');
          if (inner === 'attribute' && key !== undefined) attributes[key] = typedValue(xml.content(), type);
        });
        break;
    }
  });
  return { builder, attributes, name };
}

function readPoint(xml: XmlScanner, builder: RecordingBuilder, place: () => string, local: LocalTime): void {
  const fix = blankFix();
  const lat = xml.attribute('lat');
  const lon = xml.attribute('lon');
  let fixed = true;
  xml.eachChild((child) => {
    switch (child) {
      case 'time': {
        const text = xml.content();
        fix.time = parseTime(text, local);
        if (Number.isNaN(fix.time) && text.trim() !== '') builder.issues.note('unreadable-time', place);
        break;
      }
      case 'ele': {
        const text = xml.content();
        fix.height = parseFinite(text);
        if (Number.isNaN(fix.height) && text.trim() !== '') builder.issues.note('unreadable-height', place);
        break;
      }
      case 'fix':
        fixed = xml.content().trim() !== 'none';
        break;
      case 'hdop':
        fix.hdop = parseFinite(xml.content());
        break;
      case 'sat':
        fix.satellites = parseFinite(xml.content());
        break;
      case 'extensions':
        xml.eachChild((inner) => {
          if (inner === 'accuracy') fix.accuracy = parseFinite(xml.content());
        });
        break;
    }
  });
  if (!fixed) builder.drop('no-fix');
  else if (!lat?.trim() || !lon?.trim()) builder.drop('missing-position');
  else {
    fix.lon = parseAngle(lon, 'longitude', place);
    fix.lat = parseAngle(lat, 'latitude', place);
    builder.add(fix);
  }
}

/** An attribute as `writeGpx` wrote it, in its own type again. */
function typedValue(text: string, type: string | undefined): string | number | boolean {
  if (type === 'boolean') return text === 'true';
  const value = type === 'number' ? parseFinite(text) : Number.NaN;
  return Number.isNaN(value) ? text : value;
}
