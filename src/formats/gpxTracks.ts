import type { Steps } from '../model';
import type { ReadFile } from './gatherRecordings';
import { IssueLog } from './IssueLog';
import { openXml } from './openXml';
import { parseAngle } from './parseAngle';
import { parseNoted } from './parseNoted';
import type { Reading } from './ReadOptions';
import { blankFix, RecordingBuilder } from './RecordingBuilder';
import { type ReadTrack, Tracks } from './Tracks';
import type { TimeReader } from './timeReader';
import { typedValue } from './typedValue';
import { MAX_BYTES } from './unpack';
import type { XmlReader } from './XmlReader';

/** The tracks of a GPX document, and with `lines` its routes too. */
export function* gpxTracks(
  data: string | Uint8Array,
  { readTime, wanted, maxBytes = MAX_BYTES, maxRecordings }: Reading,
): Steps<ReadFile> {
  const { xml, finish } = openXml(
    data,
    'gpx',
    'GPX',
    maxBytes,
    wanted === 'recordings' ? 'may be missing' : 'must be there',
  );
  const source: Record<string, unknown> & { format: 'gpx' } = { format: 'gpx' };
  for (const key of ['version', 'creator']) {
    const value = xml.attribute(key);
    if (value !== undefined) source[key] = value;
  }
  const tracks = new Tracks(maxRecordings);
  const fileIssues = new IssueLog();
  let routes = 0;
  function* addTrack(what: 'track' | 'route'): Steps<void> {
    tracks.add({ ...(yield* readTrack(xml, what, tracks.count + 1, readTime)), source });
  }
  yield* xml.eachChildInSteps((child) => {
    if (child === 'trk') return addTrack('track');
    if (child === 'rte' && wanted === 'lines') return addTrack('route');
    if (child === 'rte' || child === 'wpt') {
      if (child === 'rte') routes++;
      fileIssues.note(wanted === 'lines' ? 'not-a-line' : 'not-recorded', () => xml.place());
    }
    return undefined;
  });
  finish(fileIssues, tracks.whole.length);
  return { tracks, fileIssues, ...(routes > 0 ? { hint: 'readLines reads its routes' } : {}) };
}

function* readTrack(
  xml: XmlReader,
  what: 'track' | 'route',
  number: number,
  readTime: TimeReader,
): Steps<Omit<ReadTrack, 'source'>> {
  let segment = 0;
  let point = 0;
  const place = () => `${what} ${number},${what === 'track' ? ` segment ${segment},` : ''} point ${point}`;
  const builder = new RecordingBuilder(place);
  /** A map, as a name may be one that objects have already. */
  const attributes = new Map<string, string | number | boolean>();
  let name: string | undefined;
  const readPoint = pointReader(xml, builder, place, readTime);
  const visitPoint = (inner: string) => {
    if (inner !== 'trkpt') return undefined;
    point++;
    readPoint();
    return undefined;
  };
  yield* xml.eachChildInSteps((child) => {
    switch (child) {
      case 'trkseg':
        segment++;
        point = 0;
        builder.breakLine();
        return xml.eachChildInSteps(visitPoint);
      case 'trkpt': // against the schema, which has points in segments only
      case 'rtept':
        point++;
        readPoint();
        break;
      case 'name':
        name = xml.content();
        break;
      case 'number':
        attributes.set('number', typedValue(xml.content(), 'number'));
        break;
      case 'cmt':
      case 'desc':
      case 'src':
      case 'type':
        attributes.set(child, xml.content());
        break;
      case 'extensions':
        xml.eachChild((inner) => {
          const key = xml.attribute('name');
          const type = xml.attribute('type');
          if (inner === 'attribute' && key !== undefined) attributes.set(key, typedValue(xml.content(), type));
          else if (inner === 'gaps' && xml.content() === 'stated') builder.gaps = 'stated';
        });
        break;
    }
    return undefined;
  });
  return { builder, attributes: Object.fromEntries(attributes), name };
}

/** What reads one point after the other: made once, as each thing made for a point is made a million times. */
function pointReader(xml: XmlReader, builder: RecordingBuilder, place: () => string, readTime: TimeReader): () => void {
  const fix = blankFix();
  let fixed = true;
  const quality = () => parseNoted(xml.content(), 'unreadable-quality', builder.issues, place);
  const readExtension = (name: string) => {
    if (name === 'accuracy') fix.accuracy = quality();
  };
  const readChild = (name: string) => {
    switch (name) {
      case 'time':
        fix.time = readTime(xml.content(), builder.issues, place);
        break;
      case 'ele':
        fix.height = parseNoted(xml.content(), 'unreadable-height', builder.issues, place);
        break;
      case 'fix':
        fixed = xml.content().trim() !== 'none';
        break;
      case 'hdop':
        fix.hdop = quality();
        break;
      case 'sat':
        fix.satellites = quality();
        break;
      case 'extensions':
        xml.eachChild(readExtension);
        break;
    }
  };
  return () => {
    fix.time = fix.height = fix.hdop = fix.satellites = fix.accuracy = Number.NaN;
    fixed = true;
    const lat = xml.attribute('lat');
    const lon = xml.attribute('lon');
    xml.eachChild(readChild);
    // a point that is cut off may be missing half of what it says
    if (xml.cutOff) return;
    if (!fixed) builder.drop('no-fix');
    else if (!lat?.trim() || !lon?.trim()) builder.drop('missing-position');
    else {
      fix.lon = parseAngle(lon, 'longitude', place);
      fix.lat = parseAngle(lat, 'latitude', place);
      builder.add(fix);
    }
  };
}
