import { checkNumber } from './checkNumber';
import { checkOptions } from './checkOptions';
import { InputError } from './InputError';
import type { Route } from './Route';
import type { Stretch } from './Stretch';

/**
 * Refuses anything but `{ from, to }` on the route, `from` not past `to`.
 *
 * @throws {InputError} `wrong-type`, `unknown-key`, `not-finite` or `outside`
 */
export function checkStretch(route: Pick<Route, 'length'>, stretch: Stretch, argument: string): void {
  checkOptions<Stretch>(stretch, { from: true, to: true }, argument);
  const from = checkNumber(stretch?.from, `${argument}.from`);
  const to = checkNumber(stretch?.to, `${argument}.to`);
  if (0 <= from && from <= to && to <= route.length) return;
  const rule = `a stretch of the route, 0 to ${route.length} metres`;
  throw new InputError({ reason: 'outside', argument, rule, value: [from, to] });
}
