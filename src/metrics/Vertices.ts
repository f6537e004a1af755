import { ECCENTRICITY2, MEAN_RADIUS, RADIAN, SEMI_MAJOR } from '../geodesy';
import { checkCoordinates, checkPosition, InputError, type Line, type LineColumns } from '../model';
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
    const sine = Math.sin(latitude * RADIAN);
    const cosine = Math.cos(latitude * RADIAN);
    const normal = SEMI_MAJOR / Math.sqrt(1 - ECCENTRICITY2 * sine * sine);
    this.x[i] = normal * cosine * Math.cos(longitude * RADIAN);
    this.y[i] = normal * cosine * Math.sin(longitude * RADIAN);
    this.z[i] = normal * (1 - ECCENTRICITY2) * sine;
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

/**
 * The positions of a line, checked.
 *
 * @throws {InputError} not a line, no position, or one that is not on the globe
 */
export function verticesOf(line: Line, argument: string): Vertices {
  if (Array.isArray(line)) {
    const vertices = new Vertices(checkCount(line, line.length, argument));
    for (let i = 0; i < line.length; i++) {
      const position: unknown = line[i];
      checkPosition(position, `${argument}[${i}]`);
      vertices.set(i, position[0], position[1]);
    }
    return vertices;
  }
  const { lon, lat } = columnsOf(line, argument);
  const vertices = new Vertices(checkCount(line, lon.length, argument));
  for (let i = 0; i < lon.length; i++) {
    if (!(Math.abs(lon[i]) <= 540 && Math.abs(lat[i]) <= 90)) checkCoordinates(lon[i], lat[i], `${argument}[${i}]`);
    vertices.set(i, lon[i], lat[i]);
  }
  return vertices;
}

function columnsOf(line: Line, argument: string): LineColumns {
  const columns = line as Partial<LineColumns> | null | undefined;
  if (typeof columns !== 'object' || columns === null || !columns.lon || !columns.lat) {
    const rule = 'positions, a route, a recording or columns lon and lat';
    throw new InputError({ reason: 'wrong-type', argument, rule, value: line });
  }
  if (columns.lon.length !== columns.lat.length) {
    throw new InputError({
      reason: 'wrong-type',
      argument: `${argument} lat length`,
      rule: `that of lon (${columns.lon.length})`,
      value: columns.lat.length,
    });
  }
  if (columns.gapBefore !== undefined && columns.gapBefore.length !== columns.lon.length) {
    throw new InputError({
      reason: 'wrong-type',
      argument: `${argument} gapBefore length`,
      rule: `that of lon (${columns.lon.length})`,
      value: columns.gapBefore.length,
    });
  }
  return columns as LineColumns;
}

function checkCount(line: Line, count: number, argument: string): number {
  if (!(count >= 1)) {
    throw new InputError({ reason: 'too-few', argument, rule: 'a line of at least 1 position', value: line });
  }
  return count;
}
