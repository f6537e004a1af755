import { checkRecording, type Recording } from '../model';

/** One fix of a recording; what it does not know is absent. */
export interface FixRecord {
  /** Of the fix in the recording, from 0: the same in every column. */
  readonly index: number;
  /** `[longitude, latitude]`, and the height in metres where it is known. */
  readonly position: [longitude: number, latitude: number, ...height: number[]];
  /** Milliseconds since the Unix epoch. */
  readonly time?: number;
  readonly hdop?: number;
  readonly satellites?: number;
  /** Metres, horizontal, as the receiver states it. */
  readonly accuracy?: number;
  /** Whether the line from the fix before is to be trusted. */
  readonly before: 'line' | 'gap';
}

const measures = ['time', 'hdop', 'satellites', 'accuracy'] as const;

/**
 * The fixes of a recording, one after the other, as objects: for who does not want columns.
 *
 * @example
 * const recording = recordingFrom({ lon: [5, 5.001], lat: [60, 60], time: [0, 9000], height: [12, null] });
 * [...records(recording)] // → [{ index: 0, position: [5, 60, 12], time: 0, before: 'gap' }, { index: 1, position: [5.001, 60], time: 9000, before: 'line' }]
 * records({}).next() // throws wrong-type: recording must be
 *
 * @throws {InputError} what is no recording, when the first is asked for
 * @remarks Nothing is held: each object is made when it is asked for, and is the caller's own.
 */
export function* records(recording: Recording): Generator<FixRecord, void, undefined> {
  checkRecording(recording, 'recording');
  const { lon, lat, height, gapBefore } = recording;
  for (let index = 0; index < lon.length; index++) {
    const known: { -readonly [key in (typeof measures)[number]]?: number } = {};
    for (const measure of measures) {
      const value = recording[measure]?.[index];
      if (value !== undefined && !Number.isNaN(value)) known[measure] = value;
    }
    const up = height?.[index] ?? Number.NaN;
    yield {
      index,
      position: Number.isNaN(up) ? [lon[index], lat[index]] : [lon[index], lat[index], up],
      ...known,
      before: gapBefore[index] ? 'gap' : 'line',
    };
  }
}
