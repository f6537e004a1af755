/** Up to 100 km a distance may be off by this part of itself, farther apart by {@link FARTHER_SHARE}. */
export const FAR_SHARE = 1e-7;
const FARTHER_SHARE = 1e-5;
const FARTHER = 100_000;

/** What part of itself so great a distance may be off by. */
export function shareOf(distance: number): number {
  return distance > FARTHER ? FARTHER_SHARE : FAR_SHARE;
}
