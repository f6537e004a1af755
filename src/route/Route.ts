import type { RouteRecipe } from './RouteRecipe';

/** A named stretch of a route. */
export interface Section {
  readonly name: string;
  /** Metres along-track where it begins. */
  readonly from: number;
  /** Metres along-track where it ends. */
  readonly to: number;
  /** Half the width of its corridor in metres. */
  readonly halfWidth?: number;
  /** What the sky and ground are like there, in the author's words. */
  readonly environment?: string;
  /** Counted from 1, where the section lies in a lap. */
  readonly lap?: number;
}

/** A named place on a route. */
export interface Mark {
  readonly name: string;
  /** Metres along-track. */
  readonly alongTrack: number;
  /** When it was passed, milliseconds since the Unix epoch. */
  readonly time?: number;
}

/** Something an author should look at, with its stretch in metres along-track. */
export interface RouteWarning {
  readonly reason: string;
  readonly from: number;
  readonly to: number;
  readonly message: string;
}

/**
 * The reference line: densified along geodesics of WGS 84, measured, divided into sections. Built once, never changed.
 */
export interface Route {
  readonly name?: string;
  /** Longitude of each vertex in degrees, unwrapped: neighbours never differ by more than 180°. */
  readonly lon: Float64Array;
  /** Latitude of each vertex in degrees. */
  readonly lat: Float64Array;
  /** Metres from the start at each vertex: first 0, never falling. */
  readonly alongTrack: Float64Array;
  /** Metres. */
  readonly length: number;
  /** In order along the route. */
  readonly sections: readonly Section[];
  readonly marks: readonly Mark[];
  /** Stated lateral uncertainty (95 %) at each vertex in metres; NaN where unstated. */
  readonly lateral95: Float64Array;
  readonly warnings: readonly RouteWarning[];
  /** What the route was authored from: plain JSON. */
  readonly recipe: RouteRecipe;
}
