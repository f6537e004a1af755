import { checkColumns } from './checkColumns';
import type { Recording } from './Recording';

/**
 * Refuses anything but a recording: columns of one length, what a reader gives.
 *
 * @throws {InputError} `wrong-type`, or `out-of-range` for columns of different lengths
 * @remarks Looks at the shape alone, in constant time.
 */
export function checkRecording(recording: unknown, argument = 'recording'): asserts recording is Recording {
  const rule = 'a recording with columns lon, lat and gapBefore';
  checkColumns(
    recording,
    argument,
    rule,
    ['lon', 'lat', 'gapBefore'],
    ['time', 'height', 'hdop', 'satellites', 'accuracy'],
  );
}
