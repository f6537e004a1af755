import { finish, type Recordings } from '../model';
import { bytesOf } from './bytesOf';
import type { DocumentData } from './DocumentSource';
import { gatherRecordings } from './gatherRecordings';
import { nmeaTracks } from './nmeaTracks';
import { checkReadOptions, type ReadOptions } from './ReadOptions';

/**
 * The recording of an NMEA 0183 log, in an array of one: RMC, GGA, GNS, GLL and ZDA sentences of any talker, those of
 * the same time taken together.
 *
 * Sentences whose checksum fails are dropped. Instants that any sentence calls void (status V, mode N, quality 0) or
 * entered or simulated are dropped, estimated ones kept and counted in `issues`. Times without a date take it from their
 * neighbours, over midnight; a log without any date counts from 1970-01-01. Heights are above mean sea level.
 *
 * @example
 * const [recording] = readNmea(`$GPGGA,235959,6000.000,N,00500.000,E,1,09,0.8,12.0,M,46.9,M,,*79
 * $GPRMC,000001,A,6000.006,N,00500.000,E,010.0,000.0,020526,,*1B`);
 * recording.lat // → [60, 60.0001]
 * new Date(recording.time[0]).toISOString() // → '2026-05-01T23:59:59.000Z'
 *
 * @throws {InputError} as {@link readGpx}
 * @see NMEA 0183; field lists as commonly published
 */
export function readNmea(data: DocumentData, options?: ReadOptions): Recordings {
  const { name, reading } = checkReadOptions(options);
  return gatherRecordings(finish(nmeaTracks(bytesOf(data), reading)), name);
}
