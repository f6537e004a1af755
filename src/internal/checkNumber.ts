import { InputError } from '../errors';

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
  if (typeof value !== 'number') {
    throw new InputError({ reason: 'wrong-type', argument, rule: 'a number', value });
  }
  if (!Number.isFinite(value)) {
    throw new InputError({ reason: 'not-finite', argument, rule: 'a finite number', value });
  }
  const { min = -Infinity, max = Infinity, above = -Infinity, integer = false } = rule;
  if (!(value >= min && value <= max && value > above && (!integer || Number.isInteger(value)))) {
    const parts = [
      integer ? 'a whole number' : 'a number',
      above > -Infinity ? `above ${above}` : min > -Infinity ? `of at least ${min}` : '',
      max < Infinity ? `up to ${max}` : '',
    ].filter(Boolean);
    throw new InputError({ reason: 'out-of-range', argument, rule: parts.join(' '), value });
  }
  return value;
}
