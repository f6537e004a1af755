import { finish, type Recordings } from '../model';
import { bytesOf } from './bytesOf';
import type { DocumentData } from './DocumentSource';
import { gatherRecordings } from './gatherRecordings';
import { kmlTracks } from './kmlTracks';
import { checkReadOptions, type ReadOptions } from './ReadOptions';

/**
 * Every placemark with a `LineString` or `Track` of a KML document, or of the main document of a KMZ archive, as a
 * recording; the lines of a `MultiGeometry` or `MultiTrack` are kept apart by `gapBefore`.
 *
 * Where no line of the document has times, points that each have a `TimeStamp` make one more recording, in order. Other
 * points are marks and are left out, as is what an archive holds beside its main document; both are said in `issues`.
 *
 * In a track the first `when` belongs to the first `coord` and so on; an empty one is a missing one, and where their
 * numbers differ the rest has no time, said in `issues`. A line that is laid on the ground (`clampToGround`, the default)
 * with heights of nothing but 0 has none. Links to other documents are never followed.
 *
 * @example
 * const [recording] = readKml(`<kml><Placemark><Track>
 *   <when>2026-05-01T08:00:00Z</when><when>2026-05-01T08:00:01Z</when>
 *   <coord>5 60 12</coord><coord>5.0001 60 13</coord></Track></Placemark></kml>`);
 * recording.height // → [12, 13]
 * recording.time[1] - recording.time[0] // → 1000
 *
 * @throws {InputError} as {@link readGpx}; `missing` for an archive without a document
 * @see OGC KML 2.2 (07-147r2) and 2.3 (12-007r2)
 */
export function readKml(data: DocumentData, options?: ReadOptions): Recordings {
  const { name, reading } = checkReadOptions(options);
  return gatherRecordings(finish(kmlTracks(bytesOf(data), reading)), name);
}
