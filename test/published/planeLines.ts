import type { Position } from 'geojson';

/**
 * Worked examples in the plane with what the documentation and tests of three general geometry libraries print for them
 * (JTS: DiscreteFrechetDistanceTest, DiscreteHausdorffDistanceTest; GEOS 3.11: DiscreteFrechetDistanceTest; PostGIS 3.3
 * manual: ST_FrechetDistance, ST_HausdorffDistance), and the continuous values recomputed from the definitions (free-space
 * diagram of Alt and Godau 1995 with bisection to the last bit; branch and bound for Hausdorff).
 *
 * Two of these manuals call 70 the accurate Hausdorff distance of the L shape. It is a densified vertex value: the maximum
 * over the second line of min(x, y) is 970/13 = 74.615….
 */
export interface PlaneExample {
  readonly name: string;
  readonly a: readonly Position[];
  readonly b: readonly Position[];
  readonly published: {
    readonly discreteFrechet?: number;
    readonly vertexHausdorff?: number;
    /** With each edge cut in halves. */
    readonly halvedDiscreteFrechet?: number;
    readonly halvedVertexHausdorff?: number;
  };
  /** Recomputed where it is not published: every pair of vertices, by hand. */
  readonly discreteFrechet?: number;
  readonly continuous: { readonly frechet: number; readonly hausdorffAB: number; readonly hausdorffBA: number };
}

export const planeExamples: readonly PlaneExample[] = [
  {
    name: 'JTS DiscreteFrechetDistanceTest, testLineSegments',
    a: [
      [0, 0],
      [1, 0],
      [2, 0],
      [3, 0],
      [4, 0],
    ],
    b: [
      [0, 1],
      [1, 1.1],
      [2, 1.2],
      [3, 1.1],
      [4, 1],
    ],
    published: { discreteFrechet: 1.2 },
    continuous: { frechet: 1.2, hausdorffAB: 1.194044628251987, hausdorffBA: 1.2 },
  },
  {
    name: 'JTS DiscreteFrechetDistanceTest, testOrientation',
    a: [
      [0, 0],
      [10, 10],
      [20, 15],
    ],
    b: [
      [0, 1],
      [8, 9],
      [12, 11],
      [21, 15],
    ],
    published: { discreteFrechet: 2.23606797749979 },
    continuous: { frechet: 1, hausdorffAB: 1, hausdorffBA: 1 },
  },
  {
    name: 'JTS DiscreteFrechetDistanceTest, testFromDHD; JTS DiscreteHausdorffDistanceTest; PostGIS 3.3 manual ST_HausdorffDistance',
    a: [
      [130, 0],
      [0, 0],
      [0, 150],
    ],
    b: [
      [10, 10],
      [10, 150],
      [130, 10],
    ],
    published: {
      discreteFrechet: 191.049731745428,
      vertexHausdorff: 14.142135623730951,
      halvedVertexHausdorff: 70,
    },
    continuous: { frechet: 191.049731745428, hausdorffAB: 55.87793338286672, hausdorffBA: 970 / 13 },
  },
  {
    name: 'GEOS 3.11 DiscreteFrechetDistanceTest / PostGIS 3.3 manual ST_FrechetDistance test 2; JTS DiscreteHausdorffDistanceTest; PostGIS 3.3 manual ST_HausdorffDistance testLineSegments2',
    a: [
      [0, 0],
      [2, 0],
    ],
    b: [
      [0, 1],
      [1, 2],
      [2, 1],
    ],
    published: { discreteFrechet: 2.23606797749979, vertexHausdorff: 2 },
    continuous: { frechet: 2, hausdorffAB: Math.SQRT2, hausdorffBA: 2 },
  },
  {
    name: 'GEOS 3.11 DiscreteFrechetDistanceTest / PostGIS 3.3 manual ST_FrechetDistance example',
    a: [
      [0, 0],
      [100, 0],
    ],
    b: [
      [0, 0],
      [50, 50],
      [100, 0],
    ],
    published: { discreteFrechet: 70.7106781186548, halvedDiscreteFrechet: 50 },
    continuous: { frechet: 50, hausdorffAB: 35.35533905932738, hausdorffBA: 50 },
  },
  {
    name: 'GEOS 3.11 DiscreteFrechetDistanceTest / PostGIS 3.3 manual ST_FrechetDistance test 5',
    a: [
      [1, 1],
      [2, 2],
    ],
    b: [
      [1, 4],
      [2, 3],
    ],
    published: { discreteFrechet: 3 },
    continuous: { frechet: 3, hausdorffAB: 2.23606797749979, hausdorffBA: 2.23606797749979 },
  },
  {
    name: 'JTS DiscreteHausdorffDistanceTest; PostGIS 3.3 manual ST_HausdorffDistance testLineSegments',
    a: [
      [0, 0],
      [2, 1],
    ],
    b: [
      [0, 0],
      [2, 0],
    ],
    published: { vertexHausdorff: 1 },
    discreteFrechet: 1,
    continuous: { frechet: 1, hausdorffAB: 1, hausdorffBA: 0.8944271909999159 },
  },
  {
    name: 'JTS DiscreteHausdorffDistanceTest; PostGIS 3.3 manual ST_HausdorffDistance first example',
    a: [
      [20, 70],
      [70, 60],
      [110, 70],
      [170, 70],
    ],
    b: [
      [20, 90],
      [130, 90],
      [60, 100],
      [190, 100],
    ],
    published: { vertexHausdorff: 37.26206567625497 },
    discreteFrechet: 58.309518948453004,
    continuous: { frechet: 46.44420816290538, hausdorffAB: 30, hausdorffBA: 39.036555519004324 },
  },
];
