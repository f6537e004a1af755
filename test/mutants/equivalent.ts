/** A mutant that no test can notice, and why. */
interface Equivalent {
  readonly line: string;
  readonly becomes: string;
  readonly why: string;
}

const LAST_BIT =
  'differs only where two computed numbers are the same to the last bit, which no input was found to make';
const WRITTEN_FIRST = 'what is read of it was written before';
const LATER_PAIR =
  'a sweep begun from a later pair of the same path is as sound; what it misses, the sweep of the whole diagram finds';

/** The files whose mutants are counted, each with those that change nothing that it promises. */
export const equivalent: Record<string, readonly Equivalent[]> = {
  'src/metrics/FreeSpace.ts': [
    {
      line: 'if (a.vertices.squaredDistance(0, b.vertices, 0) > limit2) return false;',
      becomes: 'if (a.vertices.squaredDistance(0, b.vertices, 0) >= limit2) return false;',
      why: LAST_BIT,
    },
    {
      line: 'if (a.vertices.squaredDistance(a.edges, b.vertices, b.edges) > limit2) return false;',
      becomes: 'if (a.vertices.squaredDistance(a.edges, b.vertices, b.edges) >= limit2) return false;',
      why: LAST_BIT,
    },
    { line: 'if (least <= limit2) {', becomes: 'if (least < limit2) {', why: LAST_BIT },
    {
      line: 'if (least === both || least !== first) j++;',
      becomes: 'if (false || least !== first) j++;',
      why: 'differs only where both walkers and the first alone come equally near: then the first goes alone, as sound a hop',
    },
    { line: 'if (path[i] < 0) path[i] = j;', becomes: 'if (true) path[i] = j;', why: LATER_PAIR },
    { line: 'if (path[i] < 0) path[i] = j;', becomes: 'if (path[i] <= 0) path[i] = j;', why: LATER_PAIR },
    {
      line: 'while (path[from] < 0) from--;',
      becomes: 'while (path[from] <= 0) from--;',
      why: 'differs at vertex 0 of b alone, where it goes back to the start of both: as sound a place to sweep from',
    },
    {
      line: 'while (front.vertex <= i || front.firstVertex() < 0) {',
      becomes: 'while (front.vertex <= i || front.firstVertex() <= 0) {',
      why: 'differs where the start of b is still in reach: the sweep goes on by a vertex, what it reaches is as true',
    },
    {
      line: 'if (front.vertex === this.#a.edges || !front.advance(free)) return false;',
      becomes: 'if (false || !front.advance(free)) return false;',
      why: 'past the last vertex there is nothing to measure, so nothing is reached and the answer is the same',
    },
    {
      line: 'if (this.#notes.length > NOTES) this.#notes.shift();',
      becomes: 'if (this.#notes.length >= NOTES) this.#notes.shift();',
      why: 'a guess may begin at three notes back as at four: it is proven or refuted by whole decisions',
    },
  ],
  'src/route/offsetLine.ts': [],
  'src/statistics/meanInterval.ts': [
    {
      line: 'for (let i = 0; i < values.length; i++) {',
      becomes: 'for (let i = 0; i <= values.length; i++) {',
      why: 'in errorOfBlocks: past the end the block is NaN, and what is written there in a typed array is dropped',
    },
    {
      line: 'const block = Math.min(blocks - 1, Math.floor((blocks * (done + weights[i] / 2)) / total));',
      becomes: 'const block = Math.min(blocks + 1, Math.floor((blocks * (done + weights[i] / 2)) / total));',
      why: 'the middle of a bin lies before the end of the last block; a last bin of no weight has nothing to add',
    },
    {
      line: 'for (let b = 0; b < blocks; b++) if (totals[b] > 0) squares += (sums[b] / totals[b] - mean) ** 2;',
      becomes: 'for (let b = 0; b <= blocks; b++) if (totals[b] > 0) squares += (sums[b] / totals[b] - mean) ** 2;',
      why: 'past the last block there is no total, which is not over 0',
    },
  ],
  'src/statistics/effectiveSamples.ts': [
    {
      line: 'if (!(variance > 1e-18 * n)) return undefined;',
      becomes: 'if (!(variance >= 1e-18 * n)) return undefined;',
      why: LAST_BIT,
    },
    {
      line: 'for (let lag = 1; lag <= column.furthest; lag++) if (column.at(lag) < 1 / Math.E) return lag * column.pool;',
      becomes:
        'for (let lag = 1; lag <= column.furthest; lag++) if (column.at(lag) <= 1 / Math.E) return lag * column.pool;',
      why: LAST_BIT,
    },
  ],
  'src/geodesy/interception.ts': [],
  'src/snap/LatticeStates.ts': [
    {
      line: 'for (let k = 0; k < size; k++) {',
      becomes: 'for (let k = 0; k <= size; k++) {',
      why: 'one past the states written out: nobody reads it',
    },
    { line: 'const near: number[] = [];', becomes: 'const near: number[] = ["Stryker was here"];', why: WRITTEN_FIRST },
    {
      line: 'const squares: number[] = [];',
      becomes: 'const squares: number[] = ["Stryker was here"];',
      why: WRITTEN_FIRST,
    },
    {
      line: 'for (let k = 0; k < found; k++) if (squares[k] < nearest) nearest = squares[k];',
      becomes: 'for (let k = 0; k < found; k++) if (squares[k] <= nearest) nearest = squares[k];',
      why: 'the same number twice',
    },
    { line: 'if (squares[k] > limit) continue;', becomes: 'if (squares[k] >= limit) continue;', why: LAST_BIT },
    {
      line: 'if (near[k] === last + 1) runs[runs.length - 1] = near[k];',
      becomes: 'if (false) runs[runs.length - 1] = near[k];',
      why: 'runs of one bin each hold the same states, in more memory',
    },
    {
      line: 'if (near[k] === last + 1) runs[runs.length - 1] = near[k];',
      becomes: 'if (near[k] === last - 1) runs[runs.length - 1] = near[k];',
      why: 'runs of one bin each hold the same states, in more memory',
    },
    {
      line: 'const before = knot > 0 ? kept[knot - 1] : fix;',
      becomes: 'const before = true ? kept[knot - 1] : fix;',
      why: 'before the first knot there is none: the loop from undefined does not run, as from the fix itself',
    },
    {
      line: 'const before = knot > 0 ? kept[knot - 1] : fix;',
      becomes: 'const before = knot >= 0 ? kept[knot - 1] : fix;',
      why: 'before the first knot there is none: the loop from undefined does not run, as from the fix itself',
    },
  ],
  'src/snap/likeliestPath.ts': [],
};
