import { InputError } from '../model';

/** More vertices than this are a slip of the pen or the options, not a route: 5 000 km at 5 m, its warnings found in a quarter of a minute at the worst. */
const MAX_VERTICES = 1e6;

/**
 * Refuses more vertices than a route can have; NaN too.
 *
 * @throws {InputError} `too-large`
 */
export function checkVertexCount(count: number): void {
  if (count <= MAX_VERTICES) return;
  const rule = `up to ${MAX_VERTICES} vertices`;
  throw new InputError({ reason: 'too-large', argument: 'route', rule, value: count });
}
