import { InputError } from './InputError';

/**
 * Refuses a column that is longer or shorter than the one it belongs to.
 *
 * @param other - Name of that one, or what it counts.
 * @throws {InputError} `out-of-range`
 */
export function checkLength(
  column: { readonly length: number },
  argument: string,
  length: number,
  other: string,
): void {
  if (column.length === length) return;
  throw new InputError({
    reason: 'out-of-range',
    argument: `${argument} length`,
    rule: `${length}, as ${other} has`,
    value: column.length,
  });
}
