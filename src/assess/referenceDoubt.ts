import type { Pair, ReferenceDoubt } from './Assessment';
import type { NamedPlaced } from './NamedPlaced';
import type { RouteGrid } from './RouteGrid';
import type { ReferenceShift } from './referenceShifts';

/**
 * Orders and differences once more with the reference moved by its stated uncertainty: eight ways over the map, and to the
 * left and right of travel. Null where no uncertainty is stated.
 *
 * @param differences of each pair, the reference moved each way
 */
export function referenceDoubt(
  grid: RouteGrid,
  recordings: readonly (NamedPlaced & { readonly entry: { readonly run: string | null } })[],
  pairs: readonly Pair[],
  differences: readonly (readonly number[])[],
  shifts: readonly ReferenceShift[],
): ReferenceDoubt | null {
  if (shifts.length === 0 || recordings.length < 2) return null;
  const unmoved = new Float64Array(grid.count);
  const order = (shift: Float64Array) =>
    recordings
      .map(({ name, placed, entry }) => ({ name, run: entry.run, mean: meanAbsolute(grid, placed.offset, shift) }))
      .filter(({ mean }) => Number.isFinite(mean))
      .sort((a, b) => (a.run ?? '').localeCompare(b.run ?? '') || a.mean - b.mean)
      .map(({ name }) => name);
  const present = order(unmoved);
  const trials = shifts.map(({ direction, right }, trial) => {
    const moved = order(right);
    let signChanges = 0;
    let verdictChanges = 0;
    for (const [i, pair] of pairs.entries()) {
      if (pair.difference === null || Math.sign(differences[i][trial]) === Math.sign(pair.difference)) continue;
      signChanges++;
      if (pair.verdict === 'closer') verdictChanges++;
    }
    return { direction, orderChanges: inversions(present, moved), signChanges, verdictChanges };
  });
  return {
    shift: grid.lateral95.reduce((a, b) => Math.max(a, b || 0), 0),
    trials,
    orderChanges: Math.max(...trials.map((trial) => trial.orderChanges)),
    verdictChanges: Math.max(...trials.map((trial) => trial.verdictChanges)),
  };
}

function meanAbsolute(grid: RouteGrid, offset: Float64Array, shift: Float64Array): number {
  let sum = 0;
  let length = 0;
  for (let k = 0; k < offset.length; k++) {
    if (Number.isNaN(offset[k])) continue;
    sum += grid.width[k] * Math.abs(offset[k] - shift[k]);
    length += grid.width[k];
  }
  return sum / length;
}

/** Pairs of the first list that stand the other way round in the second. */
function inversions(before: readonly string[], after: readonly string[]): number {
  const place = new Map(after.map((name, i) => [name, i]));
  let count = 0;
  for (let i = 0; i < before.length; i++) {
    for (let j = i + 1; j < before.length; j++) if (place.get(before[i])! > place.get(before[j])!) count++;
  }
  return count;
}
