import { ECCENTRICITY2, RADIAN, SEMI_MAJOR } from '../geodesy';

/**
 * Metres that a degree of longitude and of latitude spans at a latitude: what makes a plane of a neighbourhood, in which the
 * straight lines of degrees stay straight. Over d metres a length in it is off by d² tan(latitude) / 2R at most, 1 mm at 60° over 90 m.
 */
export function degreeMetres(latitude: number): { readonly east: number; readonly north: number } {
  const sin = Math.sin(latitude * RADIAN);
  const flat = 1 - ECCENTRICITY2 * sin * sin;
  const across = SEMI_MAJOR / Math.sqrt(flat);
  return {
    east: across * Math.cos(latitude * RADIAN) * RADIAN,
    north: ((across * (1 - ECCENTRICITY2)) / flat) * RADIAN,
  };
}
