import { InputError } from './InputError';

/** A million products of two such numbers and one more can be added up; no measure is as large. */
const MOST = 1e90;

/**
 * Refuses anything but an array, or typed array, of at least one number, all of them finite and within ±1e90.
 *
 * @throws {InputError} `wrong-type`, `too-few`, `not-finite` or `out-of-range`
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
    if (Math.abs(value) > MOST) {
      const rule = `within [-${MOST}, ${MOST}]`;
      throw new InputError({ reason: 'out-of-range', argument: `${argument}[${i}]`, rule, value });
    }
  }
}
