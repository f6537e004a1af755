/** What an author should look at. A closed union: a `switch` over it can be exhaustive. */
export type RouteWarningReason =
  /** neighbouring points so close that the direction between them is noise */
  | 'near-duplicate'
  /** out to a point and back again at once */
  | 'spike'
  /** one straight leg of more than 5 km */
  | 'long-leg'
  /** two sections that share a stretch */
  | 'overlapping-sections'
  /** a section without length */
  | 'empty-section'
  /** a corridor narrower than the line itself is known */
  | 'narrow-corridor'
  /** the route crosses itself */
  | 'self-crossing'
  /** the route runs along itself */
  | 'repeated-stretch'
  /** the finish lies beside the start */
  | 'start-near-end'
  /** an offset too wide for the bends it runs beside */
  | 'wide-offset'
  /** coordinates with fewer than 6 decimals */
  | 'coarse-coordinates'
  /** a position that would lie near its neighbours with longitude and latitude exchanged */
  | 'swap-suspected'
  /** no lateral uncertainty stated */
  | 'missing-uncertainty'
  /** legs from different reference frames or epochs */
  | 'mixed-frames'
  /** a corner rounded with less than the radius asked for, because its legs are short */
  | 'tight-corner'
  /** a turn too sharp to be rounded */
  | 'sharp-turn'
  /** a lap that ends elsewhere than it began */
  | 'open-lap'
  /** a mark far from the route */
  | 'far-mark'
  /** a property of a drawn feature that is likely another, misspelt */
  | 'misspelt-property'
  /** a property of a drawn feature that says nothing without another */
  | 'half-given'
  /** a drawn area that names no section */
  | 'unnamed-area'
  /** two lines joined by a straight line across a gap */
  | 'bridged-gap';

/** Something an author should look at, with its stretch in metres along-track. */
export interface RouteWarning {
  readonly reason: RouteWarningReason;
  readonly from: number;
  readonly to: number;
  /** How many times it is so, where that is more than can be told one by one: crossings, passes of one stretch. */
  readonly count?: number;
  /** A whole sentence. */
  readonly message: string;
}
