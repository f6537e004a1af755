import type { Pair, ReferenceDoubt } from './Assessment';
import type { NamedPlaced } from './comparePair';
import type { Stretch } from './measureRow';
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

/**
 * Orders and differences once more with the reference moved by its stated uncertainty: eight ways over the map, and to the
 * left and right of travel. Null where no uncertainty is stated.
 */
export function referenceDoubt(
  grid: RouteGrid,
  recordings: readonly (NamedPlaced & { readonly entry: { readonly run: string | null } })[],
  pairs: readonly Pair[],
  stretches: readonly Stretch[],
): ReferenceDoubt | null {
  const stated = grid.lateral95.filter((u) => u > 0);
  if (stated.length === 0 || recordings.length < 2) return null;
  const shifts: [direction: string, shift: Float64Array][] = DIRECTIONS.map(([name, east, north]) => [
    name,
    grid.rightEast.map((e, k) => (grid.lateral95[k] || 0) * (east * e + north * grid.rightNorth[k])),
  ]);
  shifts.push(['left', grid.lateral95.map((u) => -(u || 0))], ['right', grid.lateral95.map((u) => u || 0)]);
  const byName = new Map(recordings.map((one) => [one.name, one]));
  const unmoved = new Float64Array(grid.count);
  const order = (shift: Float64Array) =>
    recordings
      .map(({ name, placed, entry }) => ({ name, run: entry.run, mean: meanAbsolute(grid, placed.offset, shift) }))
      .filter(({ mean }) => Number.isFinite(mean))
      .sort((a, b) => (a.run ?? '').localeCompare(b.run ?? '') || a.mean - b.mean)
      .map(({ name }) => name);
  const present = order(unmoved);
  const trials = shifts.map(([direction, shift]) => {
    const moved = order(shift);
    let signChanges = 0;
    let verdictChanges = 0;
    for (const pair of pairs) {
      const [first, second] = [byName.get(pair.first)!, byName.get(pair.second)!];
      const stretch = stretches.find(({ section }) => section === pair.section)!;
      const difference = meanDifference(grid, first.placed.offset, second.placed.offset, shift, stretch);
      if (pair.difference === null || Math.sign(difference) === Math.sign(pair.difference)) continue;
      signChanges++;
      if (pair.verdict === 'closer') verdictChanges++;
    }
    return { direction, orderChanges: inversions(present, moved), signChanges, verdictChanges };
  });
  return {
    shift: stated.reduce((a, b) => Math.max(a, b)),
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

function meanDifference(
  grid: RouteGrid,
  a: Float64Array,
  b: Float64Array,
  shift: Float64Array,
  stretch: Stretch,
): number {
  const { first, end } = grid.range(stretch.from, stretch.to);
  let sum = 0;
  for (let k = first; k < end; k++) {
    if (Number.isNaN(a[k]) || Number.isNaN(b[k])) continue;
    sum += grid.width[k] * (Math.abs(a[k] - shift[k]) - Math.abs(b[k] - shift[k]));
  }
  return sum;
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
