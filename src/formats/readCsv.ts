import { finish, type Recordings } from '../model';
import { bytesOf } from './bytesOf';
import { csvTracks } from './csvTracks';
import type { DocumentData } from './DocumentSource';
import { gatherRecordings } from './gatherRecordings';
import { checkReadOptions, type ReadOptions } from './ReadOptions';

/**
 * The recordings of a table: one, or one for each name in a column `recording`; a change in a column `segment` is a gap, and so is
 * the header where it stands again.
 *
 * Cells are separated by comma, semicolon, tab or bar, whichever makes a header that names longitude and latitude; columns
 * go by their usual names, a unit in brackets after them. Degrees are decimal, signed or with columns `N/S` and `E/W` beside.
 * Where latitudes have a decimal comma, so have all numbers. Times are written as in XML, also without
 * separators, with points in the date (the day or the year first), or with `AM` and `PM`; or counted: in seconds, milli-, micro- or
 * nanoseconds since 1970, told apart by their size, or in seconds from the start. What else they are (`5/1/2026`: which is the
 * month?) stays unknown. Heights in feet are turned into metres. What
 * was turned or left out is said in `issues`.
 *
 * @example
 * const [recording] = readCsv('lat;lon;altitude (ft)\n60,001;5,2;100\n60,002;5,2;110');
 * recording.lat // → [60.001, 60.002]
 * recording.height // → [30.48, 33.528]
 * recording.issues.map(({ reason }) => reason) // → ['decimal-comma', 'converted-feet']
 *
 * @throws {InputError} as {@link readGpx}; `too-large` for a row of more than 65 536 characters
 * @see RFC 4180, 2005
 */
export function readCsv(data: DocumentData, options?: ReadOptions): Recordings {
  const { name, reading } = checkReadOptions(options);
  return gatherRecordings(finish(csvTracks(bytesOf(data), reading)), name);
}
