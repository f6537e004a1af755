import type { Feature, FeatureCollection, LineString, MultiLineString, Position } from 'geojson';
import { cutAtAntimeridian } from '../geodesy';
import { checkNumber, checkOptions, type OptionKeys, type Recording } from '../model';
import type { WrittenLine } from '../route';
import { findsItsGaps } from './findsItsGaps';
import type { Matched } from './Matched';
import { matchedFeatures } from './matchedFeatures';
import { segmentsOf } from './segmentsOf';
import { prepareWritten, type Writable, type WriteLineOptions } from './Writable';
import { writeTime } from './writeTime';

/** Options of {@link writeGeoJson}. */
export interface WriteGeoJsonOptions extends WriteLineOptions {
  /** Where the fixes of the one recording lie on a route: a point for each fix and a line for each excursion. */
  readonly matched?: Matched;
  /**
   * Metres from the route that still count as on it: a fix farther away is on an excursion. @defaultValue the half width
   * of the section it is in; where that is unstated, only fixes off the route are on one
   */
  readonly maxDistance?: number;
}

const keys: OptionKeys<WriteGeoJsonOptions> = {
  identity: true,
  times: true,
  corridor: true,
  matched: true,
  maxDistance: true,
};

/**
 * A GeoJSON document (RFC 7946): a FeatureCollection of one line for the route or line and each edge of its corridor, or
 * for each recording. Lines that cross the ±180° meridian are cut there.
 *
 * The gaps of a recording separate the lines of a `MultiLineString`; `properties.coordinateProperties` holds times and
 * qualities beside the coordinates. With `matched`, the features are a point for each fix, with its `alongTrack`,
 * `crossTrack`, `distance`, `section` and `state`, and a line for each excursion; by default only of what lies between
 * joining the route and leaving it. Read back, the lines give the same columns to the last digit.
 *
 * @example
 * const { features } = JSON.parse(writeGeoJson([[179.9, 60], [-179.9, 60]]));
 * features[0].geometry.coordinates // → [[[179.9, 60], [180, 60]], [[-180, 60], [-179.9, 60]]]
 * readGeoJson(writeGeoJson([[179.9, 60], [-179.9, 60]]))[0].lon // → [179.9, -179.9]
 *
 * @throws {InputError} as {@link writeGpx}; `misplaced` for `matched` with anything but one recording
 * @see RFC 7946, The GeoJSON Format, 2016, sections 3.1.9 and 4
 */
export function writeGeoJson(what: Writable, options: WriteGeoJsonOptions = {}): string {
  checkOptions(options, keys);
  const { matched, maxDistance, ...rest } = options;
  if (maxDistance !== undefined) checkNumber(maxDistance, 'options.maxDistance', { min: 0 });
  const written = prepareWritten(what, rest, matched);
  const features: Feature[] =
    written.kind === 'lines'
      ? written.lines.map(lineFeature)
      : written.matched === undefined
        ? written.recordings.map(recordingFeature)
        : matchedFeatures(written.recordings[0], written.matched, maxDistance);
  return `${JSON.stringify({ type: 'FeatureCollection', features } satisfies FeatureCollection)}\n`;
}

function lineFeature({ name, positions }: WrittenLine): Feature {
  const parts = cutAtAntimeridian(positions).map((part) => part.positions);
  return feature(parts, name === undefined ? {} : { name });
}

function recordingFeature(recording: Recording): Feature {
  const { lon, lat, time, height, attributes, name } = recording;
  const columns: Record<string, (number | string | null)[][]> = {};
  if (time) columns.times = [];
  for (const key of ['hdop', 'satellites', 'accuracy'] as const) if (recording[key]) columns[key] = [];
  const parts: Position[][] = [];
  const counts: number[] = [];
  for (const { from, to } of segmentsOf(recording)) {
    const positions: Position[] = [];
    for (let i = from; i < to; i++) {
      const high = height !== undefined && !Number.isNaN(height[i]);
      positions.push(high ? [lon[i], lat[i], height[i]] : [lon[i], lat[i]]);
    }
    for (const part of cutAtAntimeridian(positions)) {
      // RFC 7946 knows no line of one position: one fix alone stands twice, and `counts` says so
      const alone = part.positions.length === 1;
      parts.push(alone ? [part.positions[0], part.positions[0]] : part.positions);
      counts.push(part.positions.length);
      const fixes = alone ? [part.fixes[0], -1] : part.fixes;
      columns.times?.push(
        fixes.map((k) => (k < 0 ? null : writeKnown(time![from + k], `recording.time[${from + k}]`))),
      );
      for (const key of ['hdop', 'satellites', 'accuracy'] as const) {
        columns[key]?.push(
          fixes.map((k) => (k < 0 || Number.isNaN(recording[key]![from + k]) ? null : recording[key]![from + k])),
        );
      }
    }
  }
  const beside: Record<string, unknown> =
    parts.length === 1
      ? Object.fromEntries(Object.entries(columns).map(([key, [only]]) => [key, only]))
      : { ...columns, ...(counts.includes(1) ? { counts } : {}) };
  if (!findsItsGaps(recording)) beside.gaps = 'stated';
  return feature(parts, {
    name,
    ...(Object.keys(attributes).length > 0 ? { attributes } : {}),
    ...(Object.keys(beside).length > 0 ? { coordinateProperties: beside } : {}),
  });
}

const writeKnown = (time: number, argument: string) => (Number.isNaN(time) ? null : writeTime(time, argument));

function feature(parts: Position[][], properties: Record<string, unknown>): Feature<LineString | MultiLineString> {
  return {
    type: 'Feature',
    properties,
    geometry:
      parts.length === 1
        ? { type: 'LineString', coordinates: parts[0] }
        : { type: 'MultiLineString', coordinates: parts },
  };
}
