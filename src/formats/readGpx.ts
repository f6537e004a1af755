import { finish, type Recordings } from '../model';
import { bytesOf } from './bytesOf';
import type { DocumentData } from './DocumentSource';
import { gatherRecordings } from './gatherRecordings';
import { gpxTracks } from './gpxTracks';
import { checkReadOptions, type ReadOptions } from './ReadOptions';

/**
 * Every track of a GPX document (1.0 or 1.1) as a recording, its segments kept apart by `gapBefore`.
 *
 * Elements are known by their local names, so that prefixes and extensions do no harm. Points at 0, 0 or with `fix` `none`
 * are dropped and leave a gap; so do points without position, unless the times beside them show that there was none. Points
 * without time or height are kept. Each kind is one entry of `issues`. Routes and waypoints are not recordings and are left
 * out, which `issues` says. Of a file that is cut off, a card pulled out too soon, what came before is kept.
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
 * @remarks Time grows with the document; within one text or comment of megabytes up to n^1.3.
 * @throws {InputError} `too-few` (empty, or no track of 2 points), `unreadable` (not XML, or not GPX), `swapped` or
 * `out-of-range` (a position not on the globe), `not-finite`, `missing` (times without a zone and no `zone` option),
 * `too-large`, for an attribute of more than a million characters too
 * @see GPX 1.1 schema, http://www.topografix.com/GPX/1/1
 */
export function readGpx(data: DocumentData, options?: ReadOptions): Recordings {
  const { name, reading } = checkReadOptions(options);
  return gatherRecordings(finish(gpxTracks(bytesOf(data), reading)), name);
}
