import { checkNumber } from '../model';

/** Metres: half the ellipsoid's circumference, rounded up. No two places lie further apart. */
const FARTHEST = 2.1e7;
const farthest = ['meanAbsolute', 'bias', 'difference', 'first', 'second'];
/** Metres of a route, samples, and relative variances, which are no more than there are samples. */
const MOST = 1e12;
/** What rounding leaves of metres, squared, is more. */
const LEAST = 1e-50;

/**
 * Refuses rows and pairs with a number that no recording on Earth can have: squares and quotients of others stay finite.
 *
 * @throws {InputError} `out-of-range`
 */
export function checkSizes(told: object, argument: string): void {
  for (const [key, value] of Object.entries(told)) {
    if (typeof value === 'object' && value !== null) {
      checkSizes(value, argument + (Array.isArray(told) ? `[${key}]` : `.${key}`));
    } else if (typeof value === 'number') {
      const size = Math.abs(value);
      const max = farthest.includes(key) ? FARTHEST : MOST;
      const min = key.endsWith('Samples') ? 1 : size && LEAST;
      if (size > max || size < min) checkNumber(size, `the size of ${argument}.${key}`, { min, max });
    }
  }
}
