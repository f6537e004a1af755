/**
 * - `on`: on the route
 * - `off`: away from it, between being on it
 * - `before`, `after`: recorded before the route was joined, or after it was left for good
 * - `unplaced`: could not be placed
 */
export type FixState = 'on' | 'off' | 'before' | 'after' | 'unplaced';

/**
 * Why a stretch of fixes could lie on another part of the route as well.
 *
 * - `repeated-pass`: the route passes there more than once, and neither order nor time tells the passes apart
 */
export type AmbiguityReason = 'repeated-pass';

/** A stretch of fixes that could lie on another part of the route as well. */
export interface AmbiguousStretch {
  /** Metres along the route between which its fixes lie. */
  readonly from: number;
  readonly to: number;
  readonly firstFix: number;
  readonly lastFix: number;
  readonly reason: AmbiguityReason;
  /** A whole sentence. */
  readonly message: string;
  /** How many metres further along the route the other part lies; negative when it comes earlier. */
  readonly shift: number;
}

/** A recording placed on a route: the columns of its {@link RoutePlace}s, one entry for each fix. */
export interface Snapped {
  /**
   * Metres along the route where the body was at the fix: the foot, kept to where the motion of the whole recording can
   * have been (within 0.4 standard deviations of the receiver, 4 m at least); NaN where the fix is not on the route.
   */
  readonly alongTrack: Float64Array;
  /** Metres from the route, right positive, left negative; NaN where the fix is not on it. */
  readonly crossTrack: Float64Array;
  /** Metres from the route, unsigned; NaN where the fix is not on it. */
  readonly distance: Float64Array;
  /** Metres along the route of the foot, the place nearest to the fix on the matched stretch; NaN where the fix is not on it. */
  readonly footAlongTrack: Float64Array;
  /** Index of the route's segment that holds the foot; -1 where the fix is not on it. */
  readonly segment: Int32Array;
  readonly state: readonly FixState[];
  /** 0–1: how sure it is that the fix lies on this part of the route. */
  readonly confidence: Float32Array;
  readonly ambiguous: readonly AmbiguousStretch[];
}
