import { checkLength } from './checkLength';
import { InputError } from './InputError';
import { isColumn } from './isColumn';

/**
 * Refuses anything but an object with these columns, all of them as long as the first; those in `optional` may be absent.
 *
 * @throws {InputError} `wrong-type`, or `out-of-range` for a column of another length
 */
export function checkColumns(
  value: unknown,
  argument: string,
  rule: string,
  keys: readonly [first: string, ...others: string[]],
  optional: readonly string[] = [],
): void {
  const holder = value as Readonly<Record<string, ArrayLike<number> | undefined>>;
  if (typeof value !== 'object' || value === null || !keys.every((key) => isColumn(holder[key]))) {
    throw new InputError({ reason: 'wrong-type', argument, rule, value });
  }
  const [first, ...others] = keys;
  for (const key of others) checkLength(holder[key]!, `${argument}.${key}`, holder[first]!.length, first);
  for (const key of optional) {
    const column: unknown = holder[key];
    if (column === undefined) continue;
    if (!isColumn(column)) {
      throw new InputError({ reason: 'wrong-type', argument: `${argument}.${key}`, rule: 'a column', value: column });
    }
    checkLength(column, `${argument}.${key}`, holder[first]!.length, first);
  }
}
