import { finish, type Recordings } from '../model';
import { bytesOf } from './bytesOf';
import type { DocumentData } from './DocumentSource';
import { gatherRecordings } from './gatherRecordings';
import { geoJsonTracks } from './geoJsonTracks';
import { checkReadOptions, type ReadOptions } from './ReadOptions';

/**
 * Every `LineString` and `MultiLineString` of a GeoJSON document as a recording, the lines of one geometry kept apart by
 * `gapBefore`. A document that holds nothing but points is one recording, the points in order.
 *
 * Times are taken from `properties.coordinateProperties.times` or `properties.coordTimes`, by convention as many as there
 * are positions; others can't be matched and are left out, said in `issues`. They are written as in XML, or counted since 1970
 * as in {@link readCsv}, small ones in milliseconds. A line cut at the ±180° meridian, as RFC 7946 asks, is put together again.
 *
 * @example
 * const line = { type: 'LineString', coordinates: [[5, 60, 12], [5.0001, 60, 13]] };
 * const coordTimes = ['2026-05-01T08:00:00Z', '2026-05-01T08:00:01Z'];
 * const [recording] = readGeoJson(JSON.stringify({ type: 'Feature', properties: { coordTimes }, geometry: line }));
 * recording.height // → [12, 13]
 * recording.time[1] - recording.time[0] // → 1000
 *
 * @remarks Time grows with the document as that of `JSON.parse` does, up to n^1.4.
 * @throws {InputError} as {@link readGpx}; `unreadable` for another reference system than CRS84
 * @see RFC 7946, The GeoJSON Format, 2016, sections 3.1 and 4
 */
export function readGeoJson(data: DocumentData, options?: ReadOptions): Recordings {
  const { name, reading } = checkReadOptions(options);
  return gatherRecordings(finish(geoJsonTracks(bytesOf(data), reading)), name);
}
