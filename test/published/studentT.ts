/**
 * Two-sided 95 % and 99 % points of Student's t.
 *
 * Source: Abramowitz & Stegun, Handbook of Mathematical Functions, National Bureau of Standards, Applied Mathematics Series
 * 55 (1964), table 26.10. From memory; printed to three decimals.
 */
export const studentTable: readonly (readonly [degrees: number, t95: number, t99: number])[] = [
  [1, 12.706, 63.657],
  [2, 4.303, 9.925],
  [3, 3.182, 5.841],
  [4, 2.776, 4.604],
  [5, 2.571, 4.032],
  [6, 2.447, 3.707],
  [10, 2.228, 3.169],
  [20, 2.086, 2.845],
  [30, 2.042, 2.75],
  [60, 2.0, 2.66],
  [120, 1.98, 2.617],
];
