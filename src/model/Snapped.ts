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
 * - `leap-along`: the feet leap along the route and back: the receiver erred, or the body hurried and waited
 */
export type AmbiguityReason = 'repeated-pass' | 'leap-along';

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

/**
 * A place where the body went on at another part of the route: a stretch was left out, or is gone over again. Where it was seen
 * off the route in between, its state says so instead.
 */
export interface Skip {
  /** The first fix after it. */
  readonly fix: number;
  /** Metres along the route of the last fix before it and of the first after it. */
  readonly from: number;
  readonly to: number;
}

/**
 * What is wrong with a recording as a whole.
 *
 * - `against-route`: it was recorded against the direction of the route; its fixes are placed so, right and left being those
 *   of the route
 * - `untrusted-clock`: one fix in a hundred or more shares its time with another or has an earlier one than those before it;
 *   order and displacement place these as they do without times, with a confidence of 0.95 at most
 */
export type SnapIssueReason = 'against-route' | 'untrusted-clock';

/** Something that is wrong with a recording as a whole. */
export interface SnapIssue {
  readonly reason: SnapIssueReason;
  /** Whole sentences. */
  readonly message: string;
  /** How many fixes it concerns. */
  readonly fixes: number;
}

/** A recording placed on a route: the columns of its {@link RoutePlace}s, one entry for each fix. */
export interface Snapped {
  /**
   * Metres along the route where the body was at the fix: the foot, kept to where the motion of the whole recording can
   * have been (within 0.4 standard deviations of the receiver, 4 m at least; for 20 s beside a skip the other way round: no
   * further than that from the foot); NaN where the fix is not on the route.
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
  /** In the order of the fixes. */
  readonly skips: readonly Skip[];
  readonly issues: readonly SnapIssue[];
}
