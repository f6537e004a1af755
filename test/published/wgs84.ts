/**
 * NGA.STND.0036_1.0.0_WGS84 (2014) and NIMA TR8350.2 (1997): a and 1/f define WGS 84; the derived values of their tables 3 are
 * from memory. Quarter meridian as GDAL's and other test suites quote it, to 1e-4 m.
 */
export const wgs84 = {
  a: 6378137,
  inverseFlattening: 298.257223563,
  b: 6356752.3142,
  e2: 6.69437999014e-3,
  quarterMeridian: 10001965.7293,
  equator: 40075016.686,
};

/**
 * Length of one degree of latitude, centred, and of longitude, in metres, by latitude: the integrals of the radii of curvature
 * M and of N cos φ, in 40 digits. (The often copied series 111132.92 − 559.82 cos 2φ … is for WGS 72: 33–62 mm off.)
 */
export const degreeLengths: readonly (readonly [lat: number, ofLatitude: number, ofLongitude: number])[] = [
  [0, 110574.30400690097, 111319.49079327357],
  [10, 110607.7916256395, 109639.36406815298],
  [15, 110648.72066349194, 107550.48871673572],
  [20, 110704.30983732088, 104647.08630986194],
  [30, 110852.45682532674, 96486.28025089651],
  [40, 111034.63773604456, 85393.85695861843],
  [45, 111131.77765280259, 78846.83509397811],
  [50, 111229.05927774207, 71695.753616003],
  [60, 111412.27336670383, 55800.00157243613],
  [70, 111562.00328865141, 38186.541275338655],
  [75, 111618.35932746285, 28902.00580980663],
  [80, 111659.91352211639, 19393.485528132147],
];
