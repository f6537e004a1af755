import { studentQuantile } from '../statistics';
import type { AssessmentRow } from './Assessment';

/** Below this share of a stretch a recording says nothing of the whole of it. */
const LEAST_COVERAGE = 0.5;

/** Metres right of the line, negative left, that all recordings of a stretch lie from it together, and 95 % limits of it. */
export interface CommonSide {
  readonly metres: number;
  readonly limits: readonly [number, number];
}

/**
 * The mean of the recordings' mean offsets on a stretch, each counting once, where all lie to one side and its whole interval
 * (Student's t over the recordings) lies beyond `limit` metres; undefined elsewhere.
 */
export function commonSide(
  rows: readonly Pick<AssessmentRow, 'bias' | 'coverage'>[],
  limit: number,
): CommonSide | undefined {
  const offsets = rows.flatMap(({ bias, coverage }) => (bias !== null && coverage >= LEAST_COVERAGE ? [bias] : []));
  const count = offsets.length;
  if (count < 2 || offsets.some((offset) => offset > 0 !== offsets[0] > 0)) return undefined;
  const metres = offsets.reduce((sum, offset) => sum + offset / count, 0);
  const square = offsets.reduce((sum, offset) => sum + (offset - metres) ** 2 / (count - 1), 0);
  const half = studentQuantile(0.95, count - 1) * Math.sqrt(square / count);
  return Math.abs(metres) - half > limit ? { metres, limits: [metres - half, metres + half] } : undefined;
}
