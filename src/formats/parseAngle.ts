import { InputError } from '../model';
import { parseDecimal } from './parseDecimal';

/**
 * The longitude or latitude that `text` writes, in degrees; not yet held against the globe.
 *
 * @throws {InputError} `not-finite` or `wrong-type` for what is there but is no number
 */
export function parseAngle(text: string, which: 'longitude' | 'latitude', place: () => string): number {
  const value = parseDecimal(text);
  if (Number.isFinite(value)) return value;
  const infinite = !Number.isNaN(value) || /^\s*[+-]?(?:nan|inf(?:inity)?)\s*$/i.test(text);
  throw new InputError({
    reason: infinite ? 'not-finite' : 'wrong-type',
    argument: `${place()} ${which}`,
    rule: infinite ? 'a finite number' : 'a number',
    value: text,
  });
}
