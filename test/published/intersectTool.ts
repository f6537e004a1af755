/**
 * GeographicLib, manual page of IntersectTool, examples: geodesics by start and azimuth, [lat, lon], and their crossings, metres
 * along each, printed to 1 m. Method: Karney, Geodesic intersections, J. Surv. Eng. 150(3) 04024005 (2024), arXiv:2308.00495.
 */
interface Row {
  readonly first: readonly [lat: number, lon: number, azimuth: number];
  readonly second: readonly [lat: number, lon: number, azimuth: number];
  /** The closest crossing first. */
  readonly crossings: readonly { alongFirst: number; alongSecond: number; at?: readonly [lat: number, lon: number] }[];
}

export const intersectTool: readonly Row[] = [
  {
    first: [50, -4, -147.7],
    second: [0, 0, 90],
    crossings: [{ alongFirst: 6058049, alongSecond: -3311253, at: [0, -29.74549] }],
  },
  {
    first: [50, -4, -147.7],
    second: [0, 180, 0],
    crossings: [
      { alongFirst: -494582, alongSecond: 14052230 },
      { alongFirst: 19529110, alongSecond: -5932344, at: [-53.51867, 180] },
    ],
  },
];
