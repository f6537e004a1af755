import { bisectLeft } from 'd3-array';
import { isSideless } from './isSideless';

/** Offsets without a gap between them, in metres: how far along each is, and how far to the right. */
export interface OffsetRun {
  readonly along: Float64Array;
  readonly offset: Float64Array;
}

/** A strand, or another line with an offset for each bin of the route; null is a gap. */
interface Binned {
  readonly assessment: { readonly route: { readonly bins: readonly number[] } };
  readonly recording: {
    readonly offsets: readonly (number | null)[];
    readonly placing?: readonly { readonly reason: string }[];
  };
}

/**
 * The offsets at the middle of each bin between two places: a new run after each gap. Of a recording against the route's
 * direction they have no side, and there is a second run to the other.
 */
export function offsetRuns(strand: Binned, from: number, to: number): OffsetRun[] {
  const { assessment, recording } = strand;
  const { bins } = assessment.route;
  const { offsets } = recording;
  const middle = (i: number) => (bins[i] + bins[i + 1]) / 2;
  let first = Math.max(0, bisectLeft(bins, from) - 1);
  while (first < offsets.length && middle(first) < from) first++;
  let end = Math.min(offsets.length, Math.max(first, bisectLeft(bins, to)));
  while (end > first && middle(end - 1) > to) end--;
  const along = new Float64Array(end - first);
  const offset = new Float64Array(end - first);
  const runs: OffsetRun[] = [];
  let began = 0;
  let count = 0;
  const close = () => {
    if (count > began) runs.push({ along: along.subarray(began, count), offset: offset.subarray(began, count) });
    began = count;
  };
  for (let i = first; i < end; i++) {
    const value = offsets[i];
    if (value === null) close();
    else {
      along[count] = middle(i);
      offset[count++] = value;
    }
  }
  close();
  if (!isSideless(strand)) return runs;
  return [...runs, ...runs.map((run) => ({ along: run.along, offset: run.offset.map((value) => -value) }))];
}
