import { offsetStatistics } from '../metrics';
import type { AssessmentRow } from './Assessment';
import type { Stretch } from './measureRow';
import type { PlacedRecording } from './PlacedRecording';
import type { BesideOthers } from './placeEntries';
import type { RouteGrid } from './RouteGrid';

/** Metres a second below which the body stands: no error along the route makes it late. */
const STANDING = 0.3;

/** Error along the route on a stretch, each metre that the body moved counting once. */
export function errorAlong(
  grid: RouteGrid,
  { snapped, wait, joined }: PlacedRecording,
  beside: BesideOthers | undefined,
  { from, to }: Stretch,
): AssessmentRow['alongTrackError'] {
  const error = beside?.alongTrackError;
  if (error === undefined) return null;
  const values: number[] = [];
  const weights: number[] = [];
  let moved = 0;
  let seconds = 0;
  const { footAlongTrack } = snapped;
  for (let i = 1; i < error.length; i++) {
    const body = footAlongTrack[i] - error[i];
    const progress = body - (footAlongTrack[i - 1] - error[i - 1]);
    if (joined[i] !== 1 || !(progress > 0 && body >= from && body <= to) || grid.excluded[grid.binAt(body)] === 1)
      continue;
    values.push((error[i - 1] + error[i]) / 2);
    weights.push(progress);
    if (!(progress > STANDING * wait[i])) continue;
    moved += progress;
    seconds += wait[i];
  }
  if (values.length === 0) return null;
  const { mean, p95 } = offsetStatistics(values, weights);
  const late = (beside!.lag?.median ?? beside!.clockOffset) - (mean * seconds) / moved;
  return { bias: mean, p95, lag: Number.isFinite(late) ? late : null, receivers: beside!.receivers };
}
