import type { MultiPolygon, Polygon, Position } from 'geojson';
import type { Name } from './Name';
import type { Natural, PositiveSize, Size } from './Quantity';

/** Left or right of the direction of travel. */
export type Side = 'left' | 'right';

/** Both sides, to check one against. */
export const SIDES: readonly Side[] = ['left', 'right'];

/** Options of a route as a whole. */
export interface RouteOptions {
  /** What the route is called. */
  readonly name?: string;
  /** No edge of the built route is longer, in metres. @defaultValue 5 */
  readonly maxSpacing?: PositiveSize;
  /** No chord of an arc lies further inside it, in metres. @defaultValue 0.02 */
  readonly maxSagitta?: PositiveSize;
  /**
   * Metres: every corner, beside straight legs and arcs alike, is rounded with it, 0 for none. Where legs are too short the arc
   * is tighter, with a `tight-corner` warning. A turn over 150° is rounded no further back than this many metres (a near
   * semicircle; a turn by 180° on one line stays a point), with a `sharp-turn` warning. The curve that a line followed
   * at a distance makes round the outside of a corner stays as it is. @defaultValue 0
   */
  readonly cornerRadius?: Size;
  /** Lateral uncertainty (95 %) in metres, where no provenance states another. */
  readonly lateral95?: Size;
  /** Half the width in metres of the sections that state none. */
  readonly halfWidth?: PositiveSize;
}

/** Options of a straight leg. */
export interface LineToOptions {
  /** Metres: the corner at its end is rounded with it, whatever the route's `cornerRadius`; 0 leaves it sharp. */
  readonly cornerRadius?: Size;
}

/** Options of an arc. */
export interface ArcOptions {
  /** The side it turns to. */
  readonly turn: Side;
  /** Metres. */
  readonly radius: PositiveSize;
  /** Degrees turned. */
  readonly sweep: PositiveSize;
}

/** How an imported line is followed. Without any: the whole line, on it, in its own direction. */
export interface FollowOptions {
  /** Which side of the line to run on, seen in the direction of travel. */
  readonly side?: Side;
  /** How far beside the line, in metres. */
  readonly metres?: Size;
  /** Metres along the line, in its own direction, where the stretch begins. @defaultValue 0 */
  readonly from?: Size;
  /** Metres along the line, in its own direction, where the stretch ends. Defaults to the line's length. */
  readonly to?: Size;
  /** `true` to travel from `to` back to `from`. @defaultValue false */
  readonly reverse?: boolean;
}

/** Options of a section. */
export interface SectionOptions {
  /** Half the width of its corridor in metres. */
  readonly halfWidth?: PositiveSize;
  /** What the sky and ground are like there, in the author's words. */
  readonly environment?: string;
  /** Metres along-track: with `to`, the section is this stretch, wherever the call stands. */
  readonly from?: Size;
  /** Metres along-track where the stretch ends. */
  readonly to?: Size;
  /**
   * The section is what lies inside this area, wherever the call stands: each passage one section, the second and later
   * numbered, "bridge (2)". In laps each passage has the lap in which its middle lies, and keeps its name.
   */
  readonly inside?: Polygon | MultiPolygon;
}

/** Options of a mark. */
export interface MarkOptions {
  /** When it was passed, milliseconds since the Unix epoch. */
  readonly time?: number;
  /** The mark is the place of the whole route nearest to this position, wherever the call stands. */
  readonly near?: Position;
}

/** What a line was drafted from: recordings that must not be judged by it before it is corrected. */
export interface Drafted {
  /** FNV-1a, 64 bit, of the positions of each, as `assess` gives them. */
  readonly recordings: readonly string[];
  /** Metres by which the line must be moved somewhere to count as corrected. */
  readonly tolerance: PositiveSize;
  /** As it was drafted. @minItems 2 */
  readonly line: readonly Position[];
}

/** Where a leg came from, and how good it is. */
export interface Provenance {
  /** Lateral uncertainty (95 %) in metres. */
  readonly lateral95?: Size;
  /** What it was drawn from: "orthophoto, digitised twice". */
  readonly source?: string;
  /** When that was surveyed or photographed: "2024-06". */
  readonly date?: string;
  /** Terms under which the source may be used. */
  readonly licence?: string;
  /** Reference frame of the source: "ETRS89". */
  readonly frame?: string;
  /** Epoch of the frame, decimal year. */
  readonly epoch?: number;
  /** What it was drafted from, where no hand drew it. */
  readonly drafted?: Drafted;
}

/** A side and a distance: this library takes no signed offsets. */
export interface Beside {
  /** Seen in the direction of travel. */
  readonly side: Side;
  /** Metres to that side. */
  readonly metres: PositiveSize;
}

/** How an offset goes round the outside of a corner. */
export type OffsetJoin = 'round' | 'mitre' | 'bevel';

/** One call of the builder, as plain JSON. @discriminator call */
export type RecipeStep =
  | { readonly call: 'start'; readonly position: Position; readonly azimuth?: number }
  | ({ readonly call: 'lineTo'; readonly position: Position } & LineToOptions)
  | { readonly call: 'lineBy'; readonly azimuth: number; readonly distance: PositiveSize }
  | ({ readonly call: 'arc' } & ArcOptions)
  | ({
      readonly call: 'follow';
      /** At least two. @minItems 2 */
      readonly line: readonly Position[];
    } & FollowOptions)
  | ({ readonly call: 'moveOver'; readonly over: PositiveSize } & Beside)
  | { readonly call: 'uTurn'; readonly side: Side; readonly width: PositiveSize }
  | ({ readonly call: 'section'; readonly name: Name } & SectionOptions)
  | { readonly call: 'endSection' }
  | ({ readonly call: 'mark'; readonly name: Name } & MarkOptions)
  | { readonly call: 'laps'; readonly count: Natural; readonly steps: readonly RecipeStep[] }
  | { readonly call: 'outAndBack'; readonly steps: readonly RecipeStep[]; readonly returnBeside?: Beside }
  | ({ readonly call: 'provenance' } & Provenance)
  | ({ readonly call: 'offset'; readonly recipe: RouteRecipe; readonly join?: OffsetJoin } & Beside)
  | { readonly call: 'slice'; readonly recipe: RouteRecipe; readonly from: Size; readonly to: PositiveSize }
  | { readonly call: 'reverse'; readonly recipe: RouteRecipe }
  | { readonly call: 'join'; readonly recipes: readonly [RouteRecipe, RouteRecipe]; readonly gap?: 'line' | 'refuse' };

/**
 * How a route was authored: the calls in order. Plain JSON that builds the identical route again.
 *
 * The steps `offset`, `slice`, `reverse` and `join` make a route of other recipes and stand alone.
 */
export interface RouteRecipe {
  /** Version of this document's shape. */
  readonly version: 1;
  readonly options: RouteOptions;
  /** @minItems 1 */
  readonly steps: readonly RecipeStep[];
}
