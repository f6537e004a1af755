import geographiclib from 'geographiclib-geodesic';

/** Semi-major axis of WGS 84 in metres. NGA.STND.0036, table 3.1. */
export const SEMI_MAJOR = 6378137;

/** Flattening of WGS 84. NGA.STND.0036, table 3.1. */
export const FLATTENING = 1 / 298.257223563;

/** First eccentricity squared, f (2 − f). */
export const ECCENTRICITY2 = FLATTENING * (2 - FLATTENING);

/**
 * Mean radius of WGS 84 in metres, (2 a + b) / 3: where a sphere is good enough.
 *
 * @see Moritz, Geodetic Reference System 1980, J. Geod. 74 (2000), R₁
 */
export const MEAN_RADIUS = (SEMI_MAJOR * (3 - FLATTENING)) / 3;

/** Radians in a degree. */
export const RADIAN = Math.PI / 180;

// The package is CommonJS: plain Node sees only its default export. By a function, so that bundlers may leave it out.
export const Geodesic = /* @__PURE__ */ (() => geographiclib.Geodesic)();

/** Geodesics of WGS 84. Karney, Algorithms for geodesics, J. Geod. 87 (2013), doi:10.1007/s00190-012-0578-z. */
export const WGS84 = /* @__PURE__ */ (() => Geodesic.WGS84)();

/** One geodesic, endless; `s13` holds the length of the edge it was made from. */
export type GeodesicLine = ReturnType<typeof WGS84.InverseLine>;
