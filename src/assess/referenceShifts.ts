import type { RouteGrid } from './RouteGrid';

const DIRECTIONS: readonly (readonly [name: string, east: number, north: number])[] = [
  'north',
  'north-east',
  'east',
  'south-east',
  'south',
  'south-west',
  'west',
  'north-west',
].map((name, i) => [name, Math.sin((i * Math.PI) / 4), Math.cos((i * Math.PI) / 4)]);

/** The reference moved one way: by how much its bins move to the right. */
export interface ReferenceShift {
  readonly direction: string;
  readonly right: Float64Array;
}

/**
 * Ten ways in which the reference may be displaced by its stated uncertainty: eight over the map, and to the left and right
 * of travel. Bins that state none stay; none at all where nothing is stated.
 */
export function referenceShifts(grid: RouteGrid): ReferenceShift[] {
  const { lateral95, rightEast, rightNorth } = grid;
  const stated = lateral95.map((u) => u || 0);
  if (stated.every((u) => u === 0)) return [];
  return [
    ...DIRECTIONS.map(([direction, east, north]) => ({
      direction,
      right: stated.map((u, k) => u * (east * rightEast[k] + north * rightNorth[k])),
    })),
    { direction: 'left', right: stated.map((u) => -u) },
    { direction: 'right', right: stated },
  ];
}

/** Metres by which `a` lies further from the reference than `b`, the reference moved, times the metres both cover. */
export function movedDifference(
  { width }: RouteGrid,
  a: Float64Array,
  b: Float64Array,
  right: Float64Array,
  { first, end }: { readonly first: number; readonly end: number },
): number {
  let sum = 0;
  for (let k = first; k < end; k++) {
    if (Number.isNaN(a[k]) || Number.isNaN(b[k])) continue;
    sum += width[k] * (Math.abs(a[k] - right[k]) - Math.abs(b[k] - right[k]));
  }
  return sum;
}
