import { checkLength, checkMembers, checkString, InputError, type MemberKeys, type Recording } from '../model';
import { blankFix, type RawFix, RecordingBuilder } from './RecordingBuilder';

/** Numbers by fix, in any order that can be gone through: an array, a typed array, a column of a table. */
export type FixValues = Iterable<number | null | undefined>;

/** What is known of a recording that was read by other means; all columns of one length. */
export interface RecordingColumns {
  /** Degrees; unknown, with its latitude, where the receiver had no fix. */
  readonly lon: FixValues;
  readonly lat: FixValues;
  /** Milliseconds since the Unix epoch, or dates. */
  readonly time?: Iterable<number | Date | null | undefined>;
  /** Metres. */
  readonly height?: FixValues;
  readonly hdop?: FixValues;
  readonly satellites?: FixValues;
  /** Metres, horizontal, as the receiver states it. */
  readonly accuracy?: FixValues;
  /** Other than 0 where the line to the fix before is not to be trusted. */
  readonly gapBefore?: FixValues;
  /** By default "recording". */
  readonly name?: string;
}

const keys: MemberKeys<RecordingColumns> = {
  lon: 'must',
  lat: 'must',
  time: 'may',
  height: 'may',
  hdop: 'may',
  satellites: 'may',
  accuracy: 'may',
  gapBefore: 'may',
  name: 'may',
};

const VALUES = ['lon', 'lat', 'time', 'height', 'hdop', 'satellites', 'accuracy'] as const;

/**
 * A recording from columns of one's own, everything else filled in; what holds for files holds for them: fixes without a
 * position are dropped and noted, what repeats is dropped, breaks are found and marked. Null, undefined and NaN are unknown.
 *
 * @example
 * const recording = recordingFrom({ lon: [5, 5.001, 5.002], lat: [60, 60, 60], time: [0, 9000, 18000], name: 'A' });
 * recording.lon.length // → 3
 * recording.gapBefore.join() // → '1,0,0'
 * recordingFrom({ lon: [5, null, 5.002], lat: [60, null, 60] }).issues // → [{ reason: 'missing-position', count: 1 }]
 * recordingFrom({ lon: [5, 6], lat: [60] }) // throws out-of-range: columns.lat length must be 2
 * recordingFrom({ lon: [60, 60], lat: [5, 95] }) // throws swapped: fix 1
 *
 * @throws {InputError} columns of different lengths or that hold anything but numbers, a position not on the globe, fewer than 2
 * fixes left, an unknown key
 * @remarks One pass, about as long as reading a column takes; the columns given are not kept.
 */
export function recordingFrom(columns: RecordingColumns): Recording {
  checkMembers(columns, keys, 'columns');
  const { name = 'recording' } = columns;
  checkString(name, 'columns.name');
  const lon = numbers(columns.lon, 'lon');
  const read: [keyof RawFix, Float64Array][] = [];
  for (const key of VALUES) {
    const values = columns[key];
    if (values === undefined) continue;
    const column = numbers(values, key);
    checkLength(column, `columns.${key}`, lon.length, 'lon');
    read.push([key, column]);
  }
  const gaps = columns.gapBefore && numbers(columns.gapBefore, 'gapBefore');
  if (gaps) checkLength(gaps, 'columns.gapBefore', lon.length, 'lon');

  let i = 0;
  const builder = new RecordingBuilder(() => `fix ${i}`);
  const fix = blankFix();
  for (; i < lon.length; i++) {
    for (const [key, column] of read) fix[key] = column[i];
    if (gaps?.[i]) builder.breakLine();
    if (Number.isNaN(fix.lon) && Number.isNaN(fix.lat)) builder.drop('missing-position');
    else builder.add(fix);
  }
  return builder.build({ name, source: { format: 'columns' }, attributes: {} });
}

function numbers(values: Iterable<number | Date | null | undefined>, key: string): Float64Array {
  const refuse = (argument: string, rule: string, value: unknown) =>
    new InputError({ reason: 'wrong-type', argument: `columns.${argument}`, rule, value });
  if (typeof values === 'string' || typeof values?.[Symbol.iterator] !== 'function') {
    throw refuse(key, 'a column of numbers', values);
  }
  const list = Array.from(values, (value, i) => {
    if (value === null || value === undefined) return Number.NaN;
    if (key === 'time' && value instanceof Date) return value.getTime();
    if (typeof value !== 'number')
      throw refuse(`${key}[${i}]`, key === 'time' ? 'milliseconds or a Date' : 'a number', value);
    return value;
  });
  return Float64Array.from(list);
}
