import type { Snapped } from '../../src/model';
import type { SimulatedRide } from './simulateRide';

/** Further than this along the route from the truth, metres, a fix lies on another part of it. */
const ELSEWHERE = 60;

/** What became of the fixes of a ride. */
export interface PlacingJudgement {
  /** Of each fix on the route by the truth and by the placing: how sure it was, and whether it lies on its part. */
  readonly told: readonly { readonly confidence: number; readonly right: boolean }[];
  /** How many lie on another part, and how many of these with a confidence of 0.9 or more. */
  readonly elsewhere: number;
  readonly unflagged: number;
  /** How many were said to be off the route. */
  readonly off: number;
}

/** Holds a placing against the truth. */
export function judgePlacing({ alongTrack }: SimulatedRide, snapped: Snapped): PlacingJudgement {
  const told: { confidence: number; right: boolean }[] = [];
  let off = 0;
  alongTrack.forEach((truth, i) => {
    if (Number.isNaN(truth)) return;
    if (snapped.state[i] !== 'on') {
      off++;
      return;
    }
    told.push({
      confidence: snapped.confidence[i],
      right: Math.abs(snapped.alongTrack[i] - truth) <= ELSEWHERE,
    });
  });
  const wrong = told.filter(({ right }) => !right);
  return { told, elsewhere: wrong.length, unflagged: wrong.filter(({ confidence }) => confidence >= 0.9).length, off };
}
