/**
 * Intergovernmental Committee on Surveying and Mapping, Geocentric Datum of Australia Technical Manual v2.3, worked example of
 * Vincenty's formulas: Flinders Peak to Buninyong. GRS 80, whose distance differs from that of WGS 84 by 6e-8 m here, so
 * that the same numbers serve. Printed to 1 mm and 0.01″.
 */
export const flindersBuninyong = {
  from: ['37:57:03.72030S', '144:25:29.52440E'],
  to: ['37:39:10.15610S', '143:55:35.38390E'],
  distance: 54972.271,
  azimuth: '306:52:05.37',
  reverse: '127:10:25.07',
} as const;
