import { InputError } from './InputError';

/**
 * Refuses anything but an array, or typed array, of at least one number, all of them finite.
 *
 * @throws {InputError} `wrong-type`, `too-few` or `not-finite`
 */
export function checkColumn(column: ArrayLike<number>, argument: string): void {
  if (!Array.isArray(column) && !(ArrayBuffer.isView(column) && 'length' in column)) {
    throw new InputError({ reason: 'wrong-type', argument, rule: 'an array of numbers', value: column });
  }
  if (column.length === 0) {
    throw new InputError({ reason: 'too-few', argument, rule: 'at least 1 number', value: column });
  }
  for (let i = 0; i < column.length; i++) {
    const value: unknown = column[i];
    if (typeof value !== 'number' || !Number.isFinite(value)) {
      const reason = typeof value === 'number' ? 'not-finite' : 'wrong-type';
      throw new InputError({ reason, argument: `${argument}[${i}]`, rule: 'a finite number', value });
    }
  }
}
