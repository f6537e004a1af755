import { verticesOf } from '../index';
import { type Line, lineOf } from '../model';
import { bottleneck } from './bottleneck';

/**
 * Discrete Fréchet distance in metres: the shortest leash with which two walkers can hop along the **vertices** of `a`
 * and `b`, neither of them back.
 *
 * Only vertices count, so the value depends on how densely a line is recorded and is never less than that of
 * `frechet`, the distance between the lines themselves. Symmetric. A route's vertices are its densified columns;
 * gaps of a recording are hopped like any other pair of fixes.
 *
 * @example
 * const east = (metres) => direct([0, 0], 90, metres).position
 * discreteFrechet([east(0), east(100)], [east(0), direct(east(50), 0, 50).position, east(100)]) // → 70.7106…
 * discreteFrechet([], [[5, 60]]) // throws too-few: a must be a line of at least 1 position
 *
 * @throws {InputError} no position, or one that is not on the globe
 * @remarks 1e-6 m. A greedy walk bounds it from above, the rows and the column of its worst pair from below; between these best-first
 * over the pairs of vertices that can be reached, from both ends in turns (a bottleneck path, no recursion): near-linear for a
 * recording beside its route, more where turns lie side by side, mostly for two that stand still, at most the product of the two lengths.
 * 48 bytes a vertex, and for the pairs visited a bit each in tiles.
 * @see Eiter, Mannila, Computing discrete Fréchet distance, TU Wien CD-TR 94/64 (1994)
 */
export function discreteFrechet(a: Line, b: Line): number {
  return bottleneck(verticesOf(lineOf(a, 'a')), verticesOf(lineOf(b, 'b')));
}
