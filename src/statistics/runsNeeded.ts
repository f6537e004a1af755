import { detectableDifference } from './detectableDifference';

/** As many runs as let a true difference be found four times in five; null if more than 200. */
export function runsNeeded(sd: number, difference: number): number | null {
  for (let runs = 2; runs <= 200; runs++) if (detectableDifference(sd, runs) <= Math.abs(difference)) return runs;
  return null;
}
