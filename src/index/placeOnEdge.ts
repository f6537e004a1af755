import { ECCENTRICITY2, Geodesic, RADIAN, unwrapLongitude, WGS84, wrapAzimuth } from '../geodesy';

/** Metres and degrees up to which the series below stays within a micrometre; its error grows as edge³ tan² latitude. */
const SHORT_EDGE = 100;
const NEAR_POLE = 89;

/** The place at a fraction of edge `i` of a line, longitude unwrapped, and the direction of travel there, [0, 360). */
export function placeOnEdge(
  lon: Float64Array,
  lat: Float64Array,
  i: number,
  fraction: number,
  length: number,
): { lon: number; lat: number; azimuth: number } {
  const [lon1, lat1, lon2, lat2] = [lon[i], lat[i], lon[i + 1], lat[i + 1]];
  const middle = (lat1 + lat2) / 2;
  if (!(length <= SHORT_EDGE && Math.abs(middle) <= NEAR_POLE)) return exactPlace(lon1, lat1, lon2, lat2, fraction);
  // The geodesic equations to second order about the middle of the edge, in the fraction f along it:
  // φ″ = −(N/M) sin φ cos φ λ′² − (M′/M) φ′², λ″ = 2 (M/N) tan φ φ′ λ′
  // with M/N = (1 − e²) / (1 − e² sin² φ) and M′/M = 3 e² sin φ cos φ / (1 − e² sin² φ)
  const sin = Math.sin(middle * RADIAN);
  const cos = Math.sqrt(1 - sin * sin);
  const flat = 1 - ECCENTRICITY2 * sin * sin;
  const ratio = (1 - ECCENTRICITY2) / flat;
  const dLon = lon2 - lon1;
  const dLat = lat2 - lat1;
  const lonBend = ((2 * ratio * sin) / cos) * dLat * dLon * RADIAN;
  const latBend = -sin * cos * ((dLon * dLon) / ratio + ((3 * ECCENTRICITY2) / flat) * dLat * dLat) * RADIAN;
  const bow = 0.5 * fraction * (1 - fraction);
  const slope = fraction - 0.5;
  const latHere = lat1 + fraction * dLat - bow * latBend;
  // the cosine of the latitude there, from that at the middle of so short an edge
  const up = (latHere - middle) * RADIAN;
  const east = (dLon + slope * lonBend) * (cos - up * (sin + 0.5 * up * cos));
  const north = (dLat + slope * latBend) * ratio;
  return {
    lon: fraction === 1 ? lon2 : lon1 + fraction * dLon - bow * lonBend,
    lat: fraction === 1 ? lat2 : latHere,
    azimuth: wrapAzimuth(Math.atan2(east, north) / RADIAN),
  };
}

function exactPlace(lon1: number, lat1: number, lon2: number, lat2: number, fraction: number) {
  const line = WGS84.InverseLine(lat1, lon1, lat2, lon2, Geodesic.STANDARD | Geodesic.DISTANCE_IN);
  const place = line.Position(line.s13 * fraction, Geodesic.STANDARD);
  const azimuth = wrapAzimuth(place.azi2!);
  if (fraction === 0) return { lon: lon1, lat: lat1, azimuth };
  if (fraction === 1) return { lon: lon2, lat: lat2, azimuth };
  return { lon: unwrapLongitude(place.lon2!, lon1), lat: place.lat2!, azimuth };
}
