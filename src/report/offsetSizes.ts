import type { OffsetRun } from './offsetRuns';

/** How far off all of these lie, to whichever side. */
export function offsetSizes(runs: readonly OffsetRun[]): Float64Array {
  const sizes = new Float64Array(runs.reduce((sum, { offset }) => sum + offset.length, 0));
  let count = 0;
  for (const { offset } of runs) for (let i = 0; i < offset.length; i++) sizes[count++] = Math.abs(offset[i]);
  return sizes;
}
