import { wrapLongitude } from '../geodesy';
import { checkOptions, InputError, type OptionKeys, type Recording } from '../model';
import type { WrittenLine } from '../route';
import { buildXml, writtenLine, writtenRun, type XmlElement, xmlText } from './buildXml';
import { findsItsGaps } from './findsItsGaps';
import { segmentsOf } from './segmentsOf';
import { prepareWritten, type Writable, type WriteLineOptions } from './Writable';
import { writeDecimal } from './writeDecimal';
import { writeTime } from './writeTime';
import { type WrittenMark, writtenMarks } from './writtenMarks';
import { writtenSections } from './writtenSections';

const keys: OptionKeys<WriteLineOptions> = { identity: true, times: true, corridor: true };

/** Track elements of GPX for which a recording's attributes of the same name are written, in the schema's order. */
const ownKeys = ['cmt', 'desc', 'src', 'number', 'type'] as const;

/**
 * A GPX 1.1 document: a route or line as one track, the edges of its corridor as tracks after it; recordings as a track
 * each, broken into segments at their gaps. The marks of a route are waypoints, with the time they were passed where times
 * are `absolute`; its sections stand in words in the `desc` of its track.
 *
 * Recordings are written without attributes and with relative times unless the options ask otherwise. Read back, a
 * recording is the same to the last digit; one that no reader would give back is refused: with a fix at 0, 0, a height that
 * stands for none, a fix twice.
 *
 * @example
 * const gpx = writeGpx([[5, 60], [5.01, 60]]);
 * readGpx(gpx)[0].lon // → [5, 5.01]
 *
 * @throws {InputError} a position not on the globe, a recording that would not be read back equal, a time outside the years 0 to 9999, text that XML can't hold
 * @see GPX 1.1 schema, http://www.topografix.com/GPX/1/1
 */
export function writeGpx(what: Writable, options: WriteLineOptions = {}): string {
  checkOptions(options, keys);
  const written = prepareWritten(what, options);
  const route = written.kind === 'lines' ? written.route : undefined;
  const marks = route && writtenMarks(route, options.times === 'absolute' ? 'absolute' : 'none');
  const desc = route && writtenSections(route);
  const trk =
    written.kind === 'recordings'
      ? written.recordings.map(recordingTrack)
      : written.lines.map((line, i) => lineTrack(line, i === 0 ? desc : undefined));
  return buildXml({
    gpx: {
      '@xmlns': 'http://www.topografix.com/GPX/1/1',
      '@xmlns:d': 'urn:datumline:1',
      '@version': '1.1',
      '@creator': 'datumline',
      wpt: marks?.map(waypoint),
      trk,
    },
  });
}

function waypoint({ name, position: [lon, lat], time }: WrittenMark): XmlElement {
  return { '@lat': writeDecimal(lat), '@lon': writeDecimal(lon), time, name };
}

function lineTrack({ name, positions }: WrittenLine, desc?: string): XmlElement {
  const point = (i: number) => {
    const [lon, lat, height] = positions[i];
    return writtenPoint(lon, lat, writtenLine('ele', decimal(height)));
  };
  return { name: name && xmlText(name, 'route.name'), desc, trkseg: writtenRun(positions.length, point) };
}

function recordingTrack(recording: Recording): XmlElement {
  const { lon, lat, time, height, hdop, satellites, accuracy, attributes } = recording;
  const { elements, left } = ownElements(attributes);
  const point = (i: number) =>
    writtenPoint(
      lon[i],
      lat[i],
      writtenLine('ele', decimal(height?.[i])) +
        writtenLine('time', time && known(time[i]) ? writeTime(time[i], `recording.time[${i}]`) : undefined) +
        writtenLine('sat', satellites && wholeNumber(satellites[i], i)) +
        writtenLine('hdop', decimal(hdop?.[i])) +
        writtenLine('extensions', accuracyOf(accuracy?.[i])),
    );
  const attribute = left.map(([key, value]) => ({
    '@name': xmlText(key, 'recording.attributes'),
    '@type': typeof value,
    '#text': xmlText(String(value), `recording.attributes.${key}`),
  }));
  const stated = findsItsGaps(recording) ? undefined : 'stated';
  return {
    name: xmlText(recording.name, 'recording.name'),
    ...elements,
    extensions: attribute.length > 0 || stated ? { 'd:gaps': stated, 'd:attribute': attribute } : undefined,
    trkseg: segmentsOf(recording).map(({ from, to }) => writtenRun(to - from, (k) => point(from + k))),
  };
}

/** The attributes that GPX has an element for, in the order of its schema, and what is left. */
function ownElements(attributes: Recording['attributes']): {
  readonly elements: XmlElement;
  readonly left: [string, string | number | boolean][];
} {
  const fits = (value: unknown, key: string) =>
    key === 'number' ? Number.isInteger(value) && (value as number) >= 0 : typeof value === 'string';
  const own = ownKeys.filter((key) => Object.hasOwn(attributes, key) && fits(attributes[key], key));
  return {
    elements: Object.fromEntries(own.map((key) => [key, written(attributes[key], key)])),
    left: Object.entries(attributes).filter(([key]) => !(own as readonly string[]).includes(key)),
  };
}

const written = (value: string | number | boolean, key: string) =>
  typeof value === 'number' ? writeDecimal(value) : xmlText(String(value), `recording.attributes.${key}`);

const known = (value: number | undefined): value is number => value !== undefined && !Number.isNaN(value);

const decimal = (value: number | undefined) => (known(value) ? writeDecimal(value) : undefined);

/** The schema has `sat` a whole number that is not negative. */
function wholeNumber(value: number, i: number): string | undefined {
  if (Number.isNaN(value)) return;
  if (Number.isInteger(value) && value >= 0) return writeDecimal(value);
  const argument = `recording.satellites[${i}]`;
  throw new InputError({ reason: 'out-of-range', argument, rule: 'a whole number of at least 0', value });
}

const accuracyOf = (value: number | undefined) =>
  known(value) ? `\n<d:accuracy>${writeDecimal(value)}</d:accuracy>\n` : undefined;

/** A point, its elements given. */
function writtenPoint(lon: number, lat: number, elements: string): string {
  const position = `<trkpt lat="${writeDecimal(lat)}" lon="${writeDecimal(wrapLongitude(lon))}"`;
  return elements === '' ? `${position}/>` : `${position}>\n${elements}</trkpt>`;
}
