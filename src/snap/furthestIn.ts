/** No one is slower to be believed than this, metres a second. */
export const FASTEST = 8;

/** Metres by which the errors of a receiver may make a step seem longer than it was. */
export const SLACK = 10;

/** Metres that fixes of a body may lie apart after so many seconds: it goes at its pace, or faster, but not by far. */
export function furthestIn(seconds: number, pace: number): number {
  return Math.max(2.5 * pace, FASTEST) * seconds + SLACK;
}
