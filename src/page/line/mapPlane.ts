import type { Position } from 'geojson';

/** The plane that the map shows. */
export interface MapPlane {
  readonly origin: Position;
  /** Metres east and north of the origin. */
  toPlane(position: Position): [east: number, north: number];
  /** Longitude within [-180, 180), rounded to 9 decimals, a tenth of a millimetre. */
  toPosition(place: readonly number[]): Position;
}

/** Semi-major axis and first eccentricity of WGS 84. NGA.STND.0036, tables 3.1 and 3.4. */
const SEMI_MAJOR = 6378137;
const ECCENTRICITY = 0.081819190842621;

const RADIAN = Math.PI / 180;

/** Degrees: an origin nearer to a pole is moved away from it by a metre, where its east still is one. */
const NEAR_POLE = 90 - 1e-5;

/**
 * The stereographic projection of the ellipsoid about `origin`, in metres.
 *
 * It keeps angles, at the poles and across the ±180° meridian too, where the usual map of the web ends; and near its origin
 * lengths: at d metres from it they are off by no more
 * than a share of (e²/4)(d/R) + (d/2R)², 8 mm in 1 km at 20 km. So a right angle is one on the screen, a
 * distance beside the line has one width everywhere, and a picture is placed in metres. In closed form but for the latitude back,
 * which takes three or four rounds.
 *
 * @see Snyder, Map Projections: A Working Manual, USGS Professional Paper 1395, 1987, section 21, for the ellipsoid, doi:10.3133/pp1395
 */
export function mapPlane(origin: Position): MapPlane {
  const [lon1] = origin;
  const lat1 = Math.max(-NEAR_POLE, Math.min(NEAR_POLE, origin[1])) * RADIAN;
  const chi1 = conformal(lat1);
  const [sin1, cos1] = [Math.sin(chi1), Math.cos(chi1)];
  const m1 = Math.cos(lat1) / Math.sqrt(1 - (ECCENTRICITY * Math.sin(lat1)) ** 2);
  /** Twice the radius of the sphere. */
  const size = (2 * SEMI_MAJOR * m1) / cos1;
  return {
    origin,
    toPlane([longitude, latitude]) {
      const chi = conformal(latitude * RADIAN);
      const [sin, cos] = [Math.sin(chi), Math.cos(chi)];
      const turn = (longitude - lon1) * RADIAN;
      // the place opposite is endlessly far
      const scale = size / Math.max(1 + sin1 * sin + cos1 * cos * Math.cos(turn), 1e-9);
      return [scale * cos * Math.sin(turn), scale * (cos1 * sin - sin1 * cos * Math.cos(turn))];
    },
    toPosition([east, north]) {
      const far = Math.hypot(east, north);
      if (far === 0) return [rounded(wrapped(lon1)), rounded(lat1 / RADIAN)];
      const c = 2 * Math.atan2(far, size);
      const [sin, cos] = [Math.sin(c), Math.cos(c)];
      const [across, along] = [(east * sin) / far, cos1 * cos - (north * sin1 * sin) / far];
      const chi = Math.atan2(cos * sin1 + (north * sin * cos1) / far, Math.hypot(across, along));
      const turn = Math.atan2(across, along);
      return [rounded(wrapped(lon1 + turn / RADIAN)), rounded(geodetic(chi) / RADIAN)];
    },
  };
}

function conformal(latitude: number): number {
  const sin = ECCENTRICITY * Math.sin(latitude);
  const half = Math.tan(Math.PI / 4 + latitude / 2) * ((1 - sin) / (1 + sin)) ** (ECCENTRICITY / 2);
  return 2 * Math.atan(half) - Math.PI / 2;
}

function geodetic(chi: number): number {
  const tangent = Math.tan(Math.PI / 4 + chi / 2);
  let latitude = chi;
  for (let round = 0; round < 10; round++) {
    const sin = ECCENTRICITY * Math.sin(latitude);
    const next = 2 * Math.atan(tangent * ((1 + sin) / (1 - sin)) ** (ECCENTRICITY / 2)) - Math.PI / 2;
    const change = Math.abs(next - latitude);
    latitude = next;
    if (change < 1e-14) break;
  }
  return latitude;
}

const rounded = (degrees: number) => Math.round(degrees * 1e9) / 1e9;

function wrapped(longitude: number): number {
  return longitude - 360 * Math.floor((longitude + 180) / 360);
}
