import type { Position } from 'geojson';
import { localPlane } from '../../src/subpaths/geodesy';

/** Plane figures laid on the ellipsoid by the equator, 1 unit 1 m: within 1 km a plane to 1e-8 m. */
export function onEquator(plane: readonly Position[], [east, north] = [0, 0]): Position[] {
  const { toPosition } = localPlane([20, 0]);
  return plane.map(([x, y]) => toPosition([x - east, y - north]));
}
