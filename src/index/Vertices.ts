import { ECCENTRICITY2, earthCentred, MEAN_RADIUS, SEMI_MAJOR } from '../geodesy';
import type { LineColumns } from '../model';
import { surfaceDistance } from './surfaceDistance';

// Up to 1 km the curvature of a mean sphere turns a chord into a distance as well as the ellipsoid's: 0.02 µm.
const NEAR2 = 1000 ** 2;
const CURVATURE2_12 = 1 / (12 * MEAN_RADIUS ** 2);
const INVERSE_A2 = 1 / (SEMI_MAJOR * SEMI_MAJOR);
const INVERSE_B2 = INVERSE_A2 / (1 - ECCENTRICITY2);

/** The given positions of a line as earth-centred columns in metres: no meridian or pole is special there. */
export class Vertices {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;

  constructor(readonly count: number) {
    this.x = new Float64Array(count);
    this.y = new Float64Array(count);
    this.z = new Float64Array(count);
  }

  /** Sets one vertex from degrees. */
  set(i: number, longitude: number, latitude: number): void {
    [this.x[i], this.y[i], this.z[i]] = earthCentred(longitude, latitude);
  }

  /** Metres along the surface to vertex `j` of others. */
  distance(i: number, others: Vertices, j: number): number {
    return surfaceDistance(this.x[i], this.y[i], this.z[i], others.x[j], others.y[j], others.z[j]);
  }

  /** Its square, quicker for vertices that are near. */
  squaredDistance(i: number, others: Vertices, j: number): number {
    const dx = others.x[j] - this.x[i];
    const dy = others.y[j] - this.y[i];
    const dz = others.z[j] - this.z[i];
    const chord2 = dx * dx + dy * dy + dz * dz;
    if (chord2 < NEAR2) return chord2 * (1 + chord2 * CURVATURE2_12);
    return this.distance(i, others, j) ** 2;
  }

  /** The vertex of others to which a walk along them comes that goes on while it comes nearer; never the last. */
  hop(i: number, others: Vertices, from: number): number {
    let at = from;
    let least = this.squaredDistance(i, others, at);
    for (let step = 1; step >= -1; step -= 2) {
      for (let next = at + step; next >= 0 && next < others.count - 1; next += step) {
        const squared = this.squaredDistance(i, others, next);
        if (!(squared < least)) break;
        least = squared;
        at = next;
      }
    }
    return at;
  }

  /** Squared length in metres of the chord from vertex `i` to `i + 1`. */
  chord2(i: number): number {
    const dx = this.x[i + 1] - this.x[i];
    const dy = this.y[i + 1] - this.y[i];
    const dz = this.z[i + 1] - this.z[i];
    return dx * dx + dy * dy + dz * dz;
  }

  /** Sets one vertex to vertex `j` of others. */
  copy(i: number, others: Vertices, j: number): void {
    this.x[i] = others.x[j];
    this.y[i] = others.y[j];
    this.z[i] = others.z[j];
  }

  /** The same from the last to the first. */
  reversed(): Vertices {
    const back = new Vertices(this.count);
    for (const axis of ['x', 'y', 'z'] as const) {
      back[axis].set(this[axis]);
      back[axis].reverse();
    }
    return back;
  }

  /** The place at a fraction of the short edge from vertex `i` to `i + 1`, on the surface, put into `place`. */
  between(i: number, fraction: number, place: Float64Array): void {
    const px = this.x[i] + fraction * (this.x[i + 1] - this.x[i]);
    const py = this.y[i] + fraction * (this.y[i + 1] - this.y[i]);
    const pz = this.z[i] + fraction * (this.z[i + 1] - this.z[i]);
    // one step of Newton along the normal, from the chord up to the surface: 0.03 nm short under an edge of 1 km
    const nx = px * INVERSE_A2;
    const ny = py * INVERSE_A2;
    const nz = pz * INVERSE_B2;
    const rise = (1 - (px * nx + py * ny + pz * nz)) / (2 * (nx * nx + ny * ny + nz * nz));
    place[0] = px + rise * nx;
    place[1] = py + rise * ny;
    place[2] = pz + rise * nz;
  }
}

/** The vertices of a line held as columns. */
export function verticesOf({ lon, lat }: LineColumns): Vertices {
  const vertices = new Vertices(lon.length);
  for (let i = 0; i < lon.length; i++) vertices.set(i, lon[i], lat[i]);
  return vertices;
}
