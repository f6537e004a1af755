import type { Side } from '../model';
import type { Interval } from '../statistics';
import type { LineVerdict } from './Assessment';

/** A verdict on less than this share of a stretch would speak of another one. */
const LEAST_COVERAGE = 0.5;

export const LINE_RULE = `Strayed: the whole interval of the mean offset lies beyond the limit to one side, or, where a corridor is stated, that of the mean distance does. Kept: the whole interval of the mean distance lies within the limit, or, where no corridor is stated, that of the mean offset. The limit is half the corridor, and never less than the reference’s stated uncertainty and the distance between receiver and body; without a corridor it is these two. A side is sure where the whole interval of the mean offset lies beyond these two, within a corridor or not. Nothing of this is said where less than ${100 * LEAST_COVERAGE} % of the stretch is covered. Each such verdict holds by itself, at 95 %.`;

/** What a verdict against the line rests on. */
export interface LineFigures {
  readonly coverage: number;
  readonly interval95: Interval | null;
  readonly biasInterval95: Interval | null;
  /** Half the corridor in metres, the widest in the stretch; null where any of it states none. */
  readonly halfWidth: number | null;
  /** Metres below which nothing is claimed. */
  readonly floor: number;
}

/** Whether a recording, or a receiver over its runs, surely left the line or surely kept to it, and to which side it strayed. */
export interface JudgedLine {
  readonly lineVerdict: LineVerdict;
  /** The side it surely strayed to; null where it didn't, or on both sides. */
  readonly strayedTo: Side | null;
  /** Metres beyond which it strays. */
  readonly lineLimit: number;
  /** The side that it surely lies to on average, within the corridor or not; null where neither is shown. */
  readonly sureSide: Side | null;
  /** Metres within which no side is sure. */
  readonly sideLimit: number;
}

export function lineVerdict({ coverage, interval95, biasInterval95, halfWidth, floor }: LineFigures): JudgedLine {
  const lineLimit = Math.max(floor, halfWidth ?? 0);
  const beyond = (limit: number): Side | null => {
    if (coverage < LEAST_COVERAGE || biasInterval95 === null) return null;
    if (biasInterval95[0] > limit) return 'right';
    return biasInterval95[1] < -limit ? 'left' : null;
  };
  const strayedTo = beyond(lineLimit);
  const judged = (verdict: LineVerdict): JudgedLine => ({
    lineVerdict: verdict,
    strayedTo,
    lineLimit,
    sureSide: beyond(floor),
    sideLimit: floor,
  });
  if (coverage < LEAST_COVERAGE) return judged('undecided');
  if (strayedTo !== null) return judged('strayed');
  if (halfWidth === null) {
    const kept = biasInterval95 && biasInterval95[0] >= -lineLimit && biasInterval95[1] <= lineLimit;
    return judged(kept ? 'kept' : 'undecided');
  }
  if (interval95 && interval95[0] > lineLimit) return judged('strayed');
  return judged(interval95 && interval95[1] <= lineLimit ? 'kept' : 'undecided');
}
