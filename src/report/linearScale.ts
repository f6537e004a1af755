/** Where a value lies in a picture. */
export interface LinearScale {
  (value: number): number;
  readonly domain: readonly [number, number];
}

/** Values from one end of `domain` to the other, spread evenly over `range`, in pixels; a domain of no width lies in the middle. */
export function linearScale(
  [from, to]: readonly [number, number],
  [left, right]: readonly [number, number],
): LinearScale {
  const place = (value: number) => left + (to === from ? 0.5 : (value - from) / (to - from)) * (right - left);
  return Object.assign(place, { domain: [from, to] as const });
}
