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
  const holder = (value ?? {}) as Readonly<Record<string, ArrayLike<number> | undefined>>;
  const refuse = (name: string, wanted: string, found: unknown) =>
    new InputError({ reason: 'wrong-type', argument: name, rule: wanted, value: found });
  if (!keys.every((key) => isColumn(holder[key]))) throw refuse(argument, rule, value);
  const [first] = keys;
  for (const key of [...keys, ...optional]) {
    const column = holder[key];
    if (column === undefined) continue;
    if (!isColumn(column)) throw refuse(`${argument}.${key}`, 'a column', column);
    checkLength(column, `${argument}.${key}`, holder[first]!.length, first);
  }
}
