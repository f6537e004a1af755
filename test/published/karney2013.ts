/**
 * Karney, Algorithms for geodesics, J. Geod. 87 (2013) 43–55, doi:10.1007/s00190-012-0578-z. WGS 84. Tables printed to
 * 1e-11° and 1e-5 m (table 3: 1e-6 m).
 */
export const table2Direct = {
  lat1: 40,
  lon1: 0,
  azi1: 30,
  s12: 10000000,
  lat2: 41.79331020506,
  lon2: 137.84490004377,
  azi2: 149.09016931807,
};

/** A line of 5 m: catches cancellation. */
export const table3ShortInverse = {
  lat1: -30.12345,
  lon1: 0,
  lat2: -30.12344,
  lon2: 5e-5,
  azi1: 77.04353354237,
  azi2: 77.04350844913,
  s12: 4.944208,
};

export const table5NearlyAntipodal = {
  lat1: -30,
  lon1: 0,
  lat2: 29.9,
  lon2: 179.8,
  azi1: 161.89052473633,
  azi2: 18.09073724574,
  s12: 19989832.82761,
};

/**
 * The problems of section 8 on the line Istanbul–Washington, as [lat, lon], with the digits that the author gives for them
 * in the GeographicLib discussion forum (Reykjavik's foot; crossing of Reykjavik–Greenwich meridian at 6° N).
 */
export const section8 = {
  a: [42, 29],
  b: [39, -77],
  c: [64, -22],
  d: [6, 0],
  crossing: [54.7170296089477, -14.56385574430775],
  foot: [54.92853149711691, -21.93729106604878],
  alongTrack: 3928788.572,
  /** To the right. */
  crossTrack: 1010585.9988368,
} as const;
