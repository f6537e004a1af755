import { complementDigits, InputError } from '../model';
import { writeDecimal } from './writeDecimal';

/**
 * The instant as an XML `dateTime` in UTC with all its digits: `2026-05-01T08:00:00Z`, fractions only where there are any.
 *
 * @throws {InputError} `out-of-range` outside the years 0 to 9999
 */
export function writeTime(time: number, argument: string): string {
  const whole = Math.floor(time);
  if (!(whole >= -62_167_219_200_000 && whole < 253_402_300_800_000)) {
    throw new InputError({ reason: 'out-of-range', argument, rule: 'an instant in the years 0 to 9999', value: time });
  }
  const text = new Date(whole).toISOString();
  if (time === whole) return text.endsWith('.000Z') ? `${text.slice(0, -5)}Z` : text;
  const [, places] = writeDecimal(time).split('.');
  return `${text.slice(0, -1)}${time < 0 ? complementDigits(places) : places}Z`;
}
