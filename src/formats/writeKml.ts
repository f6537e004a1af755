import { checkOptions, type OptionKeys, type Recording } from '../model';
import type { WrittenLine } from '../route';
import { buildXml, type XmlElement, xmlText } from './buildXml';
import { findsItsGaps } from './findsItsGaps';
import { segmentsOf } from './segmentsOf';
import { prepareWritten, type Writable, type WriteLineOptions, type WrittenLines } from './Writable';
import { writeDecimal } from './writeDecimal';
import { writeTime } from './writeTime';
import { type WrittenMark, writtenMarks } from './writtenMarks';
import { writtenSections } from './writtenSections';

const keys: OptionKeys<WriteLineOptions> = { identity: true, times: true, corridor: true };

/**
 * A KML 2.2 document: a placemark for the route or line and each edge of its corridor, or one for each recording, its
 * segments as the lines of one `MultiGeometry`. The marks of a route are placemarks with a point after its lines, without
 * times, as points with times are fixes to readers; its sections stand in words in the `description` of its line.
 *
 * KML 2.2 lines have no times: times and qualities of the fixes stand in `ExtendedData` as words in the order of the
 * fixes, `-` where there is none. Heights are above mean sea level there, so that they are written as recorded with
 * `altitudeMode` `absolute`. Read back, a recording is the same to the last digit.
 *
 * @example
 * readKml(writeKml([[5, 60], [5.01, 60]]))[0].lon // → [5, 5.01]
 *
 * @throws {InputError} as {@link writeGpx}
 * @see OGC KML 2.2 (07-147r2), 10.7 LineString, 9.3 ExtendedData
 */
export function writeKml(what: Writable, options: WriteLineOptions = {}): string {
  checkOptions(options, keys);
  const written = prepareWritten(what, options);
  const Placemark =
    written.kind === 'recordings' ? written.recordings.map(recordingPlacemark) : linePlacemarks(written);
  return buildXml({ kml: { '@xmlns': 'http://www.opengis.net/kml/2.2', Document: { Placemark } } });
}

function linePlacemarks({ lines, route }: WrittenLines): XmlElement[] {
  const description = route && writtenSections(route);
  const marks = route ? writtenMarks(route, 'none') : [];
  return [
    ...lines.map((line, i) => linePlacemark(line, i === 0 ? description : undefined)),
    ...marks.map(markPlacemark),
  ];
}

function markPlacemark({ name, position }: WrittenMark): XmlElement {
  return { name, Point: { coordinates: position.map(writeDecimal).join(',') } };
}

function linePlacemark({ name, positions }: WrittenLine, description?: string): XmlElement {
  const tuples = positions.map((position) => position.map(writeDecimal).join(','));
  const high = positions.some((position) => position.length > 2);
  return { name: name && xmlText(name, 'route.name'), description, LineString: lineString(tuples, high) };
}

function recordingPlacemark(recording: Recording): XmlElement {
  const { lon, lat, time, height, attributes } = recording;
  const Data: XmlElement[] = Object.entries(attributes).map(([key, value]) => ({
    '@name': `attribute ${typeof value} ${xmlText(key, 'recording.attributes')}`,
    value: xmlText(String(value), `recording.attributes.${key}`),
  }));
  const column = (name: string, values: Float64Array | undefined, write: (value: number, i: number) => string) => {
    if (values === undefined) return;
    const words = Array.from(values, (value, i) => (Number.isNaN(value) ? '-' : write(value, i)));
    Data.push({ '@name': `fix ${name}`, value: words.join(' ') });
  };
  column('time', time, (value, i) => writeTime(value, `recording.time[${i}]`));
  for (const name of ['hdop', 'satellites', 'accuracy'] as const) column(name, recording[name], writeDecimal);
  const segments = segmentsOf(recording);
  const counts = segments.map(({ from, to }) => to - from);
  // KML knows no line of one position: one fix alone stands twice, and the counts say so
  if (counts.includes(1)) Data.push({ '@name': 'fix count', value: counts.join(' ') });
  if (!findsItsGaps(recording)) Data.push({ '@name': 'fix gaps', value: 'stated' });
  const LineString = segments.map(({ from, to }) => {
    const tuples: string[] = [];
    for (let i = from; i < to; i++) {
      const up = height === undefined || Number.isNaN(height[i]) ? '' : `,${writeDecimal(height[i])}`;
      tuples.push(`${writeDecimal(lon[i])},${writeDecimal(lat[i])}${up}`);
    }
    return lineString(tuples.length === 1 ? [tuples[0], tuples[0]] : tuples, height !== undefined);
  });
  return {
    name: xmlText(recording.name, 'recording.name'),
    ExtendedData: Data.length > 0 ? { Data } : undefined,
    MultiGeometry: { LineString },
  };
}

const lineString = (tuples: readonly string[], high: boolean): XmlElement => ({
  altitudeMode: high ? 'absolute' : undefined,
  coordinates: tuples.join(' '),
});
