import { checkCoordinates, checkNumber, checkRecording, InputError, type Recording } from '../model';
import { heightMarks } from './RecordingBuilder';

/** Columns a recording may lack. */
const optional = ['time', 'height', 'hdop', 'satellites', 'accuracy'] as const;

/**
 * Refuses a recording that a reader would not give back: it can be made by hand, and hold what readers take for a mark
 * or for nothing.
 *
 * @param identity - attributes are looked at where they are kept
 * @throws {InputError} naming the value
 */
export function checkWritable(recording: Recording, identity: 'strip' | 'keep', argument: string): void {
  checkRecording(recording, argument);
  const { name, lon, lat, height, gapBefore } = recording;
  if (typeof name !== 'string' || name.trim() === '') {
    throw new InputError({
      reason: 'wrong-type',
      argument: `${argument}.name`,
      rule: 'a string that is not blank',
      value: name,
    });
  }
  const refuse = (column: string, rule: string, value: unknown) =>
    new InputError({ reason: 'out-of-range', argument: `${argument}.${column}`, rule, value });
  for (const key of optional) {
    const column: ArrayLike<unknown> = recording[key] ?? [];
    for (let i = 0; i < column.length; i++) {
      const value = column[i];
      if (!Number.isFinite(value) && !Number.isNaN(value)) checkNumber(value, `${argument}.${key}[${i}]`);
    }
  }
  for (let i = 0; i < lon.length; i++) {
    if (!(Math.abs(lon[i]) <= 180 && Math.abs(lat[i]) <= 90)) checkCoordinates(lon[i], lat[i], `${argument} fix ${i}`);
    if (lon[i] === 0 && lat[i] === 0) {
      const rule = 'a position other than 0, 0, which receivers write when they have no fix';
      throw new InputError({ reason: 'out-of-range', argument: `${argument} fix ${i}`, rule, value: [lon[i], lat[i]] });
    }
    if (height !== undefined && heightMarks.has(height[i])) {
      throw refuse(`height[${i}]`, 'a height, or NaN for none', height[i]);
    }
    if (i === 0 ? gapBefore[i] !== 1 : gapBefore[i] !== 0 && gapBefore[i] !== 1) {
      throw refuse(`gapBefore[${i}]`, i === 0 ? '1' : '0 or 1', gapBefore[i]);
    }
  }
  if (identity === 'keep') checkAttributes(recording.attributes, `${argument}.attributes`);
}

function checkAttributes(attributes: unknown, argument: string): void {
  if (typeof attributes !== 'object' || attributes === null) {
    throw new InputError({ reason: 'wrong-type', argument, rule: 'an object', value: attributes });
  }
  for (const [key, value] of Object.entries(attributes)) {
    if (typeof value === 'number') checkNumber(value, `${argument}.${key}`);
    else if (typeof value !== 'string' && typeof value !== 'boolean') {
      const rule = 'a string, a number or a boolean';
      throw new InputError({ reason: 'wrong-type', argument: `${argument}.${key}`, rule, value });
    }
  }
}
