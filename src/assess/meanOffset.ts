import type { AssessmentRow } from './Assessment';
import type { BinRange, RouteGrid } from './RouteGrid';

/** The mean offset of a recording on a stretch and the share covered, as a row has them, of the bins that are not left out. */
export function meanOffset(
  { width, excluded }: RouteGrid,
  offset: Float64Array,
  { first, end }: BinRange,
  left: Uint8Array,
): Pick<AssessmentRow, 'bias' | 'coverage'> {
  let length = 0;
  let covered = 0;
  let sum = 0;
  for (let k = first; k < end; k++) {
    if (excluded[k] === 1 || left[k] === 1) continue;
    length += width[k];
    if (Number.isNaN(offset[k])) continue;
    covered += width[k];
    sum += width[k] * offset[k];
  }
  return { bias: covered > 0 ? sum / covered : null, coverage: length > 0 ? covered / length : 0 };
}
