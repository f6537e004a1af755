import { localPlane } from '../../src/subpaths/geodesy';
import { loopChoices, skippedLoop } from '../../test/support/hardRides';
import type { PlanePoint } from '../../test/support/planeRoute';

/** What `skippedLoop` and `simulateRide` make: where the plane touches, metres up to the loop, seconds that errors persist. */
const ORIGIN = [5, 52];
const STRAIGHT = 600;
const CORRELATION = 30;

/** Of rides with a loop left out the share of fixes that an observer places right, at once and after a lag. */
export interface Observed {
  readonly atOnce: number;
  readonly settled: number;
}

/**
 * What can be known of a loop left out at its crossing at best, from the fixes so far: by an observer that knows to the metre how
 * far the body went, how large the errors are and how they persist, and that there is this one loop, gone round or not. Its
 * odds are those of the errors that the fixes have if it was left out against those that they have if not.
 *
 * @param against - Natural logarithm of the odds beforehand that the loop is gone round.
 * @param lag - Seconds.
 */
export function loopObserver(count: number, begin: number, against: number, lag: number): Observed {
  const { toPlane } = localPlane(ORIGIN);
  let fixes = 0;
  let atOnce = 0;
  let settled = 0;
  for (const { length, ...options } of loopChoices(count, begin)) {
    const { route, recording, alongTrack } = skippedLoop(length, options);
    const { lon, lat } = recording;
    const { sigma, interval } = options;
    const radius = length / (2 * Math.PI);
    const keep = Math.exp(-interval / CORRELATION);
    /** Metres past the crossing of each fix, and whether the loop is thought to be left out by then. */
    const past: number[] = [];
    const leftOut: boolean[] = [];
    let odds = -against;
    let before: readonly [PlanePoint, PlanePoint] | undefined;
    alongTrack.forEach((place, i) => {
      if (Number.isNaN(place)) return;
      const on = place <= STRAIGHT ? place - STRAIGHT : place - (route.length - STRAIGHT);
      const [x, y] = toPlane([lon[i], lat[i]]);
      const turn = Math.min(Math.max(on, 0), length) / radius;
      const straightOn = on - Math.min(Math.max(on, 0), length);
      const left: PlanePoint = [x - on, y];
      const round: PlanePoint = [x - straightOn - radius * Math.sin(turn), y - radius * (1 - Math.cos(turn))];
      // of an error that persists only what is new speaks
      const fresh = (error: PlanePoint, earlier: PlanePoint = [0, 0]) =>
        (error[0] - keep * earlier[0]) ** 2 + (error[1] - keep * earlier[1]) ** 2;
      const variance = sigma * sigma * (before ? 1 - keep * keep : 1);
      odds += (fresh(round, before?.[1]) - fresh(left, before?.[0])) / (2 * variance);
      before = [left, round];
      past.push(on);
      leftOut.push(odds > 0);
    });
    const later = Math.ceil(lag / interval);
    past.forEach((on, i) => {
      fixes++;
      if (on <= 0 || leftOut[i]) atOnce++;
      if (on <= 0 || leftOut[Math.min(i + later, past.length - 1)]) settled++;
    });
  }
  return { atOnce: atOnce / fixes, settled: settled / fixes };
}
