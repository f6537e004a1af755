import type { Size } from './Quantity';
import type { Provenance, RouteRecipe } from './RouteRecipe';
import type { RouteWarning } from './RouteWarning';

/** A named stretch of a route. No two sections of a route share both name and lap. */
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
  /** Counted from 1, where the mark lies in a lap. */
  readonly lap?: number;
}

/** A stretch authored as an arc of a circle, or rounded at a corner. */
export interface Arc {
  /** Metres along-track where it begins. */
  readonly from: number;
  /** Metres along-track where it ends, measured along its chords. */
  readonly to: number;
  readonly turn: 'left' | 'right';
  /** Metres. */
  readonly radius: number;
  /** Metres along the arc itself: what the chords approach from below. */
  readonly length: number;
}

/** Where a stretch of a route came from, and how good it is. */
export interface ProvenanceStretch extends Provenance {
  /** Metres along-track where it begins. */
  readonly from: Size;
  /** Metres along-track where it ends. */
  readonly to: Size;
}

/** A stretch authored as laps. */
export interface Laps {
  /** Metres along-track where the first begins. */
  readonly from: number;
  /** Metres along-track where the last ends. */
  readonly to: number;
  /** How many; no whole number where the stretch was cut. */
  readonly count: number;
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
  /**
   * Metres along the vertices: the compensated sum of the geodesics between them. Chords are shorter than their arc, by 42 mm
   * in a full turn of 36.5 m radius at the default `maxSagitta`; the line as it was drawn is
   * `length` + the sum over `arcs` of `arc.length - (arc.to - arc.from)`.
   */
  readonly length: number;
  /** In order along the route. */
  readonly sections: readonly Section[];
  readonly marks: readonly Mark[];
  /** The stretches that are arcs, in order. */
  readonly arcs: readonly Arc[];
  /** The stretches that are laps, in order. */
  readonly laps: readonly Laps[];
  /** The stretches whose source was stated, in order. */
  readonly provenance: readonly ProvenanceStretch[];
  /** Stated lateral uncertainty (95 %) at each vertex in metres; NaN where unstated. */
  readonly lateral95: Float64Array;
  /** Sought when first read: n log n, but where the route meets itself everywhere with the square, up to a thousand looks a vertex. */
  readonly warnings: readonly RouteWarning[];
  /** What the route was authored from: plain JSON. */
  readonly recipe: RouteRecipe;
}
