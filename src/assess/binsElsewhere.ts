import type { FarTogether } from './farTogether';
import type { RouteGrid } from './RouteGrid';

/** The bins of a route on which all travelled another way, as 1: what lies there says nothing of the line or the map. */
export function binsElsewhere(grid: RouteGrid, far: readonly FarTogether[]): Uint8Array {
  const elsewhere = new Uint8Array(grid.count);
  for (const { from, to } of far) {
    const { first, end } = grid.range(from, to);
    elsewhere.fill(1, first, end);
  }
  return elsewhere;
}
