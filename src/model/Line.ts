import type { Recording } from './Recording';
import type { Route } from './Route';

/** A position as it is taken, `[longitude, latitude, height?]`: of GeoJSON, or a tuple that nobody may write to. */
export type GivenPosition = readonly number[];

/** A GeoJSON LineString as it is taken; nothing is written to it. */
export interface GivenLineString {
  readonly type: 'LineString';
  readonly coordinates: readonly GivenPosition[];
  readonly bbox?: unknown;
}

/** A GeoJSON Feature of a line as it is taken. */
export interface GivenLineFeature {
  readonly type: 'Feature';
  readonly geometry: GivenLineString;
  readonly properties?: unknown;
  readonly id?: unknown;
  readonly bbox?: unknown;
}

/**
 * What every function takes for a line: positions, in an array or anything else that can be gone through, a GeoJSON LineString or a Feature of one, a route, a recording, or anything
 * with columns `lon` and `lat`.
 *
 * - Edges are geodesics of WGS 84. One position is a line of length 0.
 * - A recording's `gapBefore` marks edges that were not travelled: the Hausdorff distances and the buffers leave these out
 *   (the fixes at their ends still count); everything else joins across them, as its line must be connected.
 */
export type Line = Iterable<GivenPosition> | GivenLineString | GivenLineFeature | Route | Recording | LineColumns;

/** A line held as columns of degrees. */
export interface LineColumns {
  readonly lon: ArrayLike<number>;
  readonly lat: ArrayLike<number>;
  /** 1 where the edge from the position before was not travelled; absent when every edge was. */
  readonly gapBefore?: ArrayLike<number>;
}
