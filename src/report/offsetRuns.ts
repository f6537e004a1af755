import { bisectLeft } from 'd3-array';
import { isSideless } from './isSideless';

/** An offset at a place, in metres. */
export type OffsetAt = readonly [alongTrack: number, offset: number];

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
export function offsetRuns(strand: Binned, from: number, to: number): OffsetAt[][] {
  const { assessment, recording } = strand;
  const { bins } = assessment.route;
  const runs: OffsetAt[][] = [];
  let run: OffsetAt[] = [];
  for (let i = Math.max(0, bisectLeft(bins, from) - 1); i < recording.offsets.length; i++) {
    const middle = (bins[i] + bins[i + 1]) / 2;
    if (middle < from) continue;
    if (middle > to) break;
    const offset = recording.offsets[i];
    if (offset !== null) run.push([middle, offset]);
    else if (run.length > 0) {
      runs.push(run);
      run = [];
    }
  }
  if (run.length > 0) runs.push(run);
  if (!isSideless(strand)) return runs;
  return [...runs, ...runs.map((one) => one.map(([s, offset]): OffsetAt => [s, -offset]))];
}
