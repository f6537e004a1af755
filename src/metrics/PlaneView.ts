import { ECCENTRICITY2, MEAN_RADIUS } from '../geodesy';
import { surfaceDistance, type Vertices } from '../index';

// Up to 1 km the curvature of a mean sphere does; over 100 km places are seen as on a sphere, as NearestEdge can.
const NEAR2 = 1000 ** 2;
const SPHERE2 = 100_000 ** 2;
const CURVATURE2_6 = 1 / (6 * MEAN_RADIUS * MEAN_RADIUS);

/**
 * Lines in the plane that touches the ellipsoid at a place: each vertex at its true distance and in its true direction from there.
 *
 * From places within 500 m of it a distance in that plane is off by 1e-9 of itself. The vertex seen last is left in the fields.
 */
export class PlaneView {
  x = Number.NaN;
  y = Number.NaN;

  // the place, and the axes
  #ox = Number.NaN;
  #oy = Number.NaN;
  #oz = Number.NaN;
  #ex = Number.NaN;
  #ey = Number.NaN;
  #fx = Number.NaN;
  #fy = Number.NaN;
  #fz = Number.NaN;

  /** Takes a place to look from. */
  lookFrom(ox: number, oy: number, oz: number): void {
    const steep = oz / (1 - ECCENTRICITY2);
    const scale = 1 / Math.sqrt(ox * ox + oy * oy + steep * steep);
    const nx = ox * scale;
    const ny = oy * scale;
    const nz = steep * scale;
    // the one axis goes east, at the poles along the meridian of 90°
    const flat = Math.sqrt(nx * nx + ny * ny);
    const ex = flat > 0 ? -ny / flat : 0;
    const ey = flat > 0 ? nx / flat : 1;
    this.#ox = ox;
    this.#oy = oy;
    this.#oz = oz;
    this.#ex = ex;
    this.#ey = ey;
    this.#fx = -nz * ey;
    this.#fy = nz * ex;
    this.#fz = nx * ey - ny * ex;
  }

  /** Sees a vertex. */
  see({ x, y, z }: Vertices, i: number): void {
    this.seePlace(x[i], y[i], z[i]);
  }

  /** Sees a place. */
  seePlace(px: number, py: number, pz: number): void {
    const dx = px - this.#ox;
    const dy = py - this.#oy;
    const dz = pz - this.#oz;
    const along = dx * this.#ex + dy * this.#ey;
    const across = dx * this.#fx + dy * this.#fy + dz * this.#fz;
    const plane2 = along * along + across * across;
    const chord2 = dx * dx + dy * dy + dz * dz;
    let scale = 1 + plane2 * CURVATURE2_6;
    if (chord2 > NEAR2) {
      const distance =
        chord2 > SPHERE2
          ? 2 * MEAN_RADIUS * Math.asin(Math.min(1, Math.sqrt(chord2) / (2 * MEAN_RADIUS)))
          : surfaceDistance(this.#ox, this.#oy, this.#oz, px, py, pz);
      scale = plane2 > 0 ? distance / Math.sqrt(plane2) : 1;
    }
    this.x = along * scale;
    this.y = across * scale;
  }
}
