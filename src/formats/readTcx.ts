import { finish, type Recordings } from '../model';
import { bytesOf } from './bytesOf';
import type { DocumentData } from './DocumentSource';
import { gatherRecordings } from './gatherRecordings';
import { checkReadOptions, type ReadOptions } from './ReadOptions';
import { tcxTracks } from './tcxTracks';

/**
 * Every activity of a training document (TCX: `Activity`, `Lap`, `Track`, `Trackpoint`) as a recording, its laps joined.
 *
 * A second track within a lap is a pause and a gap; a new lap is not, and the fix that both laps hold is taken once.
 * Points without position, which sensors write between fixes, are dropped; only the time that passed makes a gap of them.
 * Elements are known by their local names. Distances that the receiver states are summed into
 * `attributes.DistanceMeters`; courses are not recordings: `readLines` reads them. The `Id` of an activity, which is the
 * time it began, is an attribute and not its name.
 *
 * @example
 * const point = (second, lon) => `<Trackpoint><Time>2026-05-01T08:00:0${second}Z</Time><Position><LatitudeDegrees>60` +
 *   `</LatitudeDegrees><LongitudeDegrees>${lon}</LongitudeDegrees></Position></Trackpoint>`;
 * const lap = (points) => `<Lap><Track>${points}</Track></Lap>`;
 * const [recording] = readTcx(`<TrainingCenterDatabase><Activities><Activity Sport="Biking">` +
 *   lap(point(0, 5) + point(1, 5.0001)) + lap(point(1, 5.0001) + point(2, 5.0002)) +
 *   `</Activity></Activities></TrainingCenterDatabase>`);
 * recording.lon // → [5, 5.0001, 5.0002]
 * recording.gapBefore // → [1, 0, 0]
 * recording.issues[0].reason // → 'repeated-fix'
 *
 * @remarks as {@link readGpx}
 * @throws {InputError} as {@link readGpx}
 */
export function readTcx(data: DocumentData, options?: ReadOptions): Recordings {
  const { name, reading } = checkReadOptions(options);
  return gatherRecordings(finish(tcxTracks(bytesOf(data), reading)), name);
}
