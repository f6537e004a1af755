import { bisector } from 'd3-array';
import { weightedQuantiles } from '../metrics';
import type { AssessmentRow } from './Assessment';
import { fixesInOrder } from './fixesInOrder';
import type { Stretch } from './measureRow';
import type { PlacedRecording } from './PlacedRecording';
import type { BesideOthers } from './placeEntries';
import type { RouteGrid } from './RouteGrid';

/** Metres a second below which the body stands: no error along the route makes it late. */
const STANDING = 0.3;

/**
 * Error along the route on a stretch, each metre that the body moved counting once: for one recording, asked of its stretches
 * one after the other.
 */
export function errorAlong(
  grid: RouteGrid,
  { snapped, wait, joined }: PlacedRecording,
  beside: BesideOthers | undefined,
): (stretch: Stretch) => AssessmentRow['alongTrackError'] {
  const error = beside?.alongTrackError;
  if (error === undefined) return () => null;
  const n = error.length;
  const body = new Float64Array(n);
  for (let i = 0; i < n; i++) body[i] = snapped.footAlongTrack[i] - error[i];
  const progress = new Float64Array(n).fill(Number.NaN);
  for (let i = 1; i < n; i++) progress[i] = body[i] - body[i - 1];
  const counts = (i: number) => joined[i] === 1 && progress[i] > 0 && !grid.isExcluded(body[i]);
  const steps = fixesInOrder(body, counts);
  const { left, right } = bisector((i: number) => body[i]);
  return ({ from, to }) => {
    const mine = steps.subarray(left(steps, from), right(steps, to));
    if (mine.length === 0) return null;
    let moved = 0;
    let seconds = 0;
    for (const i of mine) {
      if (!(progress[i] > STANDING * wait[i])) continue;
      moved += progress[i];
      seconds += wait[i];
    }
    const sizes = new Float64Array(mine.length);
    const weights = new Float64Array(mine.length);
    let [total, squares, sum, largest] = [0, 0, 0, 0];
    mine.forEach((i, k) => {
      const value = (error[i - 1] + error[i]) / 2;
      const weight = progress[i];
      sizes[k] = Math.abs(value);
      weights[k] = weight;
      total += weight;
      squares += weight * weight;
      sum += weight * value;
      largest = Math.max(largest, sizes[k]);
    });
    const mean = sum / total;
    const [p95] = weightedQuantiles(sizes, weights, { total, squares, largest }, [0.95]);
    const late = beside!.clockOffset - (mean * seconds) / moved;
    return { bias: mean, p95, lag: Number.isFinite(late) ? late : null, receivers: beside!.receivers };
  };
}
