import type { Feature, LineString, Position } from 'geojson';
import type { Recording } from './Recording';
import type { Route } from './Route';

/**
 * What every function takes for a line: positions, a GeoJSON LineString or a Feature of one, a route, a recording, or anything
 * with columns `lon` and `lat`.
 *
 * - Edges are geodesics of WGS 84. One position is a line of length 0.
 * - A recording's `gapBefore` marks edges that were not travelled: the Hausdorff distances and the buffers leave these out
 *   (the fixes at their ends still count); everything else joins across them, as its line must be connected.
 */
export type Line = readonly Position[] | LineString | Feature<LineString> | Route | Recording | LineColumns;

/** A line held as columns of degrees. */
export interface LineColumns {
  readonly lon: ArrayLike<number>;
  readonly lat: ArrayLike<number>;
  /** 1 where the edge from the position before was not travelled; absent when every edge was. */
  readonly gapBefore?: ArrayLike<number>;
}
