/**
 * GeographicLib, manual page of IntersectTool, examples: geodesics by start and azimuth, [lat, lon], and their crossings, metres
 * along each, printed to 1 m. Method: Karney, Geodesic intersections, J. Surv. Eng. 150(3) 04024005 (2024), arXiv:2308.00495.
 */
export const intersectTool = [
  { first: [50, -4, -147.7], second: [0, 0, 90], alongFirst: 6058049, alongSecond: -3311253, at: [0, -29.74549] },
  { first: [50, -4, -147.7], second: [0, 180, 0], alongFirst: -494582, alongSecond: 14052230 },
] as const;
