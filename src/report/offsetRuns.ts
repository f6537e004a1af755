import { bisectLeft, bisector, bisectRight } from 'd3-array';
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

/** Of each strand its runs along the whole route: every picture wants some of them. */
const found = new WeakMap<Binned, readonly OffsetRun[]>();

const byEnd = bisector(({ along }: OffsetRun) => along[along.length - 1]);

/**
 * The offsets at the middle of each bin between two places: a new run after each gap. Of a recording against the route's
 * direction they have no side, and there is a second run to the other.
 */
export function offsetRuns(strand: Binned, from: number, to: number): OffsetRun[] {
  let whole = found.get(strand);
  if (whole === undefined) found.set(strand, (whole = wholeRuns(strand)));
  const runs: OffsetRun[] = [];
  for (let k = byEnd.left(whole, from); k < whole.length && whole[k].along[0] <= to; k++) {
    const { along, offset } = whole[k];
    const [begin, end] = [bisectLeft(along, from), bisectRight(along, to)];
    if (begin < end) runs.push({ along: along.subarray(begin, end), offset: offset.subarray(begin, end) });
  }
  if (!isSideless(strand)) return runs;
  return [...runs, ...runs.map((run) => ({ along: run.along, offset: run.offset.map((value) => -value) }))];
}

function wholeRuns({ assessment, recording }: Binned): OffsetRun[] {
  const { bins } = assessment.route;
  const { offsets } = recording;
  const along = new Float64Array(offsets.length);
  const offset = new Float64Array(offsets.length);
  const runs: OffsetRun[] = [];
  let began = 0;
  let count = 0;
  const close = () => {
    if (count > began) runs.push({ along: along.subarray(began, count), offset: offset.subarray(began, count) });
    began = count;
  };
  for (let i = 0; i < offsets.length; i++) {
    const value = offsets[i];
    if (value === null) close();
    else {
      along[count] = (bins[i] + bins[i + 1]) / 2;
      offset[count++] = value;
    }
  }
  close();
  return runs;
}
