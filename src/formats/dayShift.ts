const DAY = 86_400_000;

/** Milliseconds from one date to that of the next time of day: half a day back or on is taken as midnight passed. */
export const dayShift = (from: number, to: number): number =>
  to < from - DAY / 2 ? DAY : to > from + DAY / 2 ? -DAY : 0;
