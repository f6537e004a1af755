import { InputError, type Recording } from '../model';

/**
 * Refuses a recording with a fix that repeats the time and the place of the one before: readers drop such.
 *
 * @throws {InputError} `out-of-range`
 */
export function checkRepeats({ lon, lat, time }: Recording, argument: string): void {
  if (time === undefined) return;
  for (let i = 1; i < time.length; i++) {
    const sameMeridian = lon[i] === lon[i - 1] || (Math.abs(lon[i]) === 180 && Math.abs(lon[i - 1]) === 180);
    if (time[i] !== time[i - 1] || lat[i] !== lat[i - 1] || !sameMeridian) continue;
    const rule = 'another time than that of the same place before it';
    throw new InputError({ reason: 'out-of-range', argument: `${argument}.time[${i}]`, rule, value: time[i] });
  }
}
