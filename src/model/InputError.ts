import { showValue } from './showValue';

/** Why an input was refused. A closed union: a `switch` over it can be exhaustive. */
export type InputErrorReason =
  /** not the kind of value asked for */
  | 'wrong-type'
  /** a number outside its range */
  | 'out-of-range'
  /** NaN or infinite where a finite number is needed */
  | 'not-finite'
  /** too few points, fixes, recordings … */
  | 'too-few'
  /** longitude and latitude look exchanged */
  | 'swapped'
  /** a key that no option, recipe or document has */
  | 'unknown-key'
  /** something required is absent */
  | 'missing'
  /** a call or value that cannot stand where it stands */
  | 'misplaced'
  /** a place before the start or past the end of the route */
  | 'outside'
  /** a document that cannot be read as what it claims to be */
  | 'unreadable'
  /** larger or more deeply nested than the stated limit */
  | 'too-large'
  /** more than one answer where one was asked for */
  | 'ambiguous';

/** What an {@link InputError} is made from. */
export interface InputErrorDetails {
  readonly reason: InputErrorReason;
  /** Where it stood, as the caller would write it: `points[7] latitude`. */
  readonly argument: string;
  /** What was expected, completing "ARGUMENT must be …". */
  readonly rule: string;
  readonly value: unknown;
  /** One more sentence that helps: "Positions are [longitude, latitude]". */
  readonly hint?: string;
}

/**
 * The one error of this library for input it refuses.
 *
 * The message is always "ARGUMENT must be RULE, not VALUE", followed by a hint where there is one.
 *
 * @example
 * lineLength([[5, 95], [6, 52]]) // throws swapped: positions[0] latitude must be within [-90, 90], not 95
 */
export class InputError extends RangeError {
  override readonly name = 'InputError';
  readonly reason: InputErrorReason;
  /** Where the value stood, as the caller would write it: `points[7] latitude`. */
  readonly argument: string;
  /** What was expected, completing "ARGUMENT must be …". */
  readonly rule: string;
  readonly value: unknown;
  /** One more sentence that helps; undefined where there is none. */
  readonly hint: string | undefined;

  constructor({ reason, argument, rule, value, hint }: InputErrorDetails) {
    super(`${argument} must be ${rule}, not ${showValue(value)}${hint ? `. ${hint}` : ''}`);
    this.reason = reason;
    this.argument = argument;
    this.rule = rule;
    this.value = value;
    this.hint = hint;
  }
}
