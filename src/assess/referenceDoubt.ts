import type { Pair, ReferenceDoubt } from './Assessment';
import { sumsWithin } from './distanceSums';
import type { NamedPlaced } from './NamedPlaced';
import type { Summed } from './pairSums';
import type { RouteGrid } from './RouteGrid';
import type { ReferenceShift } from './referenceShifts';

/** A recording that is compared, and its {@link distanceSums}. */
interface Doubted extends NamedPlaced, Summed {
  readonly entry: { readonly run: string | null };
}

/**
 * Orders and differences once more with the reference moved by its stated uncertainty: eight ways over the map, and to the
 * left and right of travel. Null where no uncertainty is stated.
 *
 * @param differences of each pair, the reference moved each way
 */
export function referenceDoubt(
  grid: RouteGrid,
  recordings: readonly Doubted[],
  pairs: readonly Pair[],
  differences: readonly (readonly number[])[],
  shifts: readonly ReferenceShift[],
): ReferenceDoubt | null {
  if (shifts.length === 0 || recordings.length < 2) return null;
  const { count, width } = grid;
  const whole = { first: 0, end: count };
  const covered = recordings.map(({ name, placed: { offset }, distances, entry }) => {
    let metres = 0;
    for (let k = 0; k < count; k++) if (!Number.isNaN(offset[k])) metres += width[k];
    const means = sumsWithin(grid, distances, whole).map((sum) => sum / metres);
    return { name, run: entry.run ?? '', means };
  });
  const known = covered.filter(({ means }) => Number.isFinite(means[0]));
  const order = (way: number) =>
    [...known].sort((a, b) => byWord.compare(a.run, b.run) || a.means[way] - b.means[way]).map(({ name }) => name);
  const present = order(0);
  const trials = shifts.map(({ direction }, trial) => {
    const moved = order(trial + 1);
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

/** As names are put in order by default; once, as each call by itself is slow. */
const byWord = new Intl.Collator();

/** Pairs of the first list that stand the other way round in the second: counted while they are merged in order. */
function inversions(before: readonly string[], after: readonly string[]): number {
  const place = new Map(after.map((name, i) => [name, i]));
  let count = 0;
  const inOrder = (places: readonly number[]): readonly number[] => {
    if (places.length < 2) return places;
    const middle = places.length >> 1;
    const [left, right] = [inOrder(places.slice(0, middle)), inOrder(places.slice(middle))];
    const merged: number[] = [];
    for (let i = 0, j = 0; i < left.length || j < right.length; ) {
      if (j === right.length || left[i] < right[j]) merged.push(left[i++]);
      else {
        merged.push(right[j++]);
        count += left.length - i;
      }
    }
    return merged;
  };
  inOrder(before.map((name) => place.get(name)!));
  return count;
}
