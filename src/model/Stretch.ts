/** A stretch of a route, metres along it. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}
