import { wrapLongitude } from '../geodesy';
import { checkOptions, InputError, type OptionKeys, type Recording } from '../model';
import type { WrittenLine } from '../route';
import { escapeXml } from './escapeXml';
import { prepareWritten, type Writable, type WriteLineOptions } from './Writable';
import { writeDecimal } from './writeDecimal';
import { writeTime } from './writeTime';

const keys: OptionKeys<WriteLineOptions> = { identity: true, times: true, corridor: true };

/** Track elements of GPX for which a recording's attributes of the same name are written, in the schema's order. */
const textElements = ['cmt', 'desc', 'src'] as const;

/**
 * A GPX 1.1 document: a route or line as one track, the edges of its corridor as tracks after it; recordings as a track
 * each, broken into segments at their gaps.
 *
 * Recordings are written without attributes and with relative times unless the options ask otherwise. Read back, a
 * recording has the same columns to the last digit.
 *
 * @example
 * const gpx = writeGpx([[5, 60], [5.01, 60]]);
 * readGpx(gpx)[0].lon // → [5, 5.01]
 *
 * @throws {InputError} a position not on the globe, a time outside the years 0 to 9999, text that XML can't hold
 * @see GPX 1.1 schema, http://www.topografix.com/GPX/1/1
 */
export function writeGpx(what: Writable, options: WriteLineOptions = {}): string {
  checkOptions(options, keys);
  const written = prepareWritten(what, options);
  const tracks = written.kind === 'lines' ? written.lines.map(lineTrack) : written.recordings.map(recordingTrack);
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<gpx xmlns="http://www.topografix.com/GPX/1/1" xmlns:d="urn:datumline:1" version="1.1" creator="datumline">',
    ...tracks,
    '</gpx>',
    '',
  ].join('\n');
}

function lineTrack({ name, positions }: WrittenLine): string {
  const points = positions.map(([lon, lat, height]) =>
    point(lon, lat, height === undefined ? '' : `<ele>${writeDecimal(height)}</ele>`),
  );
  const title = name === undefined ? '' : `<name>${escapeXml(name, 'route.name')}</name>`;
  return `<trk>${title}<trkseg>\n${points.join('\n')}\n</trkseg></trk>`;
}

function recordingTrack(recording: Recording): string {
  const { lon, lat, time, height, hdop, satellites, accuracy, gapBefore, attributes } = recording;
  const lines = [`<trk><name>${escapeXml(recording.name, 'recording.name')}</name>`];
  const left = new Map(Object.entries(attributes));
  for (const key of textElements) {
    const value = left.get(key);
    if (typeof value !== 'string') continue;
    lines.push(`<${key}>${escapeXml(value, `recording.attributes.${key}`)}</${key}>`);
    left.delete(key);
  }
  const number = left.get('number');
  if (typeof number === 'number' && Number.isInteger(number) && number >= 0) {
    lines.push(`<number>${writeDecimal(number)}</number>`);
    left.delete('number');
  }
  const type = left.get('type');
  if (typeof type === 'string') {
    lines.push(`<type>${escapeXml(type, 'recording.attributes.type')}</type>`);
    left.delete('type');
  }
  if (left.size > 0) {
    const extra = [...left].map(([key, value]) => {
      const named = escapeXml(key, 'recording.attributes');
      return `<d:attribute name="${named}" type="${typeof value}">${escapeXml(String(value), `recording.attributes.${key}`)}</d:attribute>`;
    });
    lines.push(`<extensions>${extra.join('')}</extensions>`);
  }
  const known = (column: Float64Array | undefined, i: number) => column !== undefined && !Number.isNaN(column[i]);
  for (let i = 0; i < lon.length; i++) {
    if (i === 0 || gapBefore[i]) lines.push(i === 0 ? '<trkseg>' : '</trkseg><trkseg>');
    let inner = '';
    if (known(height, i)) inner += `<ele>${writeDecimal(height![i])}</ele>`;
    if (known(time, i)) inner += `<time>${writeTime(time![i], `recording.time[${i}]`)}</time>`;
    if (known(satellites, i)) inner += `<sat>${wholeNumber(satellites![i], `recording.satellites[${i}]`)}</sat>`;
    if (known(hdop, i)) inner += `<hdop>${writeDecimal(hdop![i])}</hdop>`;
    if (known(accuracy, i)) {
      inner += `<extensions><d:accuracy>${writeDecimal(accuracy![i])}</d:accuracy></extensions>`;
    }
    lines.push(point(lon[i], lat[i], inner));
  }
  lines.push('</trkseg></trk>');
  return lines.join('\n');
}

function point(lon: number, lat: number, inner: string): string {
  const place = `<trkpt lat="${writeDecimal(lat)}" lon="${writeDecimal(wrapLongitude(lon))}"`;
  return inner === '' ? `${place}/>` : `${place}>${inner}</trkpt>`;
}

/** The schema has `sat` a whole number that is not negative. */
function wholeNumber(value: number, argument: string): string {
  if (Number.isInteger(value) && value >= 0) return writeDecimal(value);
  throw new InputError({ reason: 'out-of-range', argument, rule: 'a whole number of at least 0', value });
}
