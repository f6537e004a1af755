/**
 * Worked examples of cross-track on a sphere: a bound for the ellipsoid, no oracle.
 *
 * - Williams, Aviation Formulary V1.47, some worked examples: LAX to JFK, a point right of it; nautical miles of
 *   1 minute of arc, from rounded intermediates, hence good to 0.0012 NM.
 * - Gade, The n-vector page, example 10, radius 6371 km, printed to 0.1 m.
 * - Veness, geodesy 2.4.0 (npm), doc comments of latlon-spherical.js, radius 6371 km, printed to 0.1 m and 1 m.
 *
 * Positions [lon, lat], degrees.
 */
export const aviationFormulary = {
  from: [-(118 + 24 / 60), 33 + 57 / 60],
  to: [-(73 + 47 / 60), 40 + 38 / 60],
  point: [-(116 + 30 / 60), 34 + 30 / 60],
  /** NM, right. */
  crossTrack: 7.4512,
  alongTrack: 99.588,
  /** Radians, the whole way and the course at its start. */
  distance: 0.623585,
  course: 1.150035,
  /** 40 % of the way. */
  partWay: [-(101 + 37.57 / 60), 38 + 40.167 / 60],
};

export const nVectorExample10 = { from: [0, 0], to: [0, 10], point: [0.1, 1], radius: 6371e3, crossTrack: 11117.8 };

export const sphericalDocExample = {
  from: [-1.7297, 53.3206],
  to: [0.1334, 53.1887],
  point: [-0.7972, 53.2611],
  radius: 6371e3,
  crossTrack: -307.5,
  alongTrack: 62331,
};
