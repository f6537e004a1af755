import { checkFinite } from './checkFinite';
import { InputError } from './InputError';

/** Bounds for {@link checkNumber}; each is optional. */
interface NumberRule {
  readonly min?: number;
  readonly max?: number;
  /** The value must be greater than this. */
  readonly above?: number;
  readonly integer?: boolean;
}

/**
 * Refuses anything but a finite number within the rule; returns it.
 *
 * @throws {InputError} `wrong-type`, `not-finite` or `out-of-range`
 */
export function checkNumber(value: unknown, argument: string, rule: NumberRule = {}): number {
  const number = checkFinite(value, argument);
  const { min = -Infinity, max = Infinity, above = -Infinity, integer = false } = rule;
  if (!(number >= min && number <= max && number > above && (!integer || Number.isInteger(number)))) {
    const parts = [
      integer ? 'a whole number' : 'a number',
      above > -Infinity ? `above ${above}` : min > -Infinity ? `of at least ${min}` : '',
      max < Infinity ? `up to ${max}` : '',
    ].filter(Boolean);
    throw new InputError({ reason: 'out-of-range', argument, rule: parts.join(' '), value });
  }
  return number;
}
