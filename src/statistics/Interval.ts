/** Two ends, the lower first. */
export type Interval = readonly [low: number, high: number];
