import type { Position } from 'geojson';

/**
 * Shares of a tested line inside the buffer of a reference, in the plane: closed forms, and confirmed to 1e-6 with polygon
 * buffers of a general geometry library (GEOS 3.11, 256 segments a quarter circle). The measure is that of Goodchild and
 * Hunter, A simple positional accuracy measure for linear features, IJGIS 11 (1997), doi:10.1080/136588197242419.
 */
export interface BufferExample {
  readonly name: string;
  readonly tested: readonly Position[];
  readonly reference: readonly Position[];
  /** Width and share. */
  readonly shares: readonly (readonly [number, number])[];
  /** How exactly a share can be known where the line touches the buffer's edge: it goes with the root of the width. */
  readonly tolerance?: number;
  /** Width that holds 95 %. */
  readonly width95?: number;
  readonly directedHausdorff?: number;
}

const every = (share: (width: number) => number, widths: readonly number[]) =>
  widths.map((width) => [width, share(width)] as const);

export const bufferExamples: readonly BufferExample[] = [
  {
    name: 'parallel at 5 m',
    tested: [
      [0, 5],
      [100, 5],
    ],
    reference: [
      [0, 0],
      [100, 0],
    ],
    shares: [
      [0, 0],
      [4.999, 0],
      [5, 1],
      [6, 1],
    ],
    width95: 5,
    directedHausdorff: 5,
  },
  {
    name: 'fan from 0 to 10 m',
    tested: [
      [0, 0],
      [100, 10],
    ],
    reference: [
      [0, 0],
      [100, 0],
    ],
    shares: every((x) => x / 10, [0.5, 2, 4, 9.5, 10]),
    width95: 9.5,
    directedHausdorff: 10,
  },
  {
    name: 'overrun by 10 m',
    tested: [
      [0, 0],
      [110, 0],
    ],
    reference: [
      [0, 0],
      [100, 0],
    ],
    shares: every((x) => (100 + x) / 110, [0, 1, 4.5, 10]),
    width95: 4.5,
    directedHausdorff: 10,
  },
  {
    name: 'zigzag of 8 m',
    tested: [
      [0, 0],
      [10, 8],
      [20, 0],
      [30, 8],
      [40, 0],
    ],
    reference: [
      [0, 0],
      [40, 0],
    ],
    shares: every((x) => x / 8, [1, 4, 7.6, 8]),
    width95: 7.6,
    directedHausdorff: 8,
  },
  {
    name: 'outside of a corner at 3 m',
    tested: [
      [-3, 50],
      [-3, -3],
      [50, -3],
    ],
    reference: [
      [0, 50],
      [0, 0],
      [50, 0],
    ],
    shares: [
      [3, 0.9433962264150944],
      [4, 0.9933160624729168],
    ],
    // 1 − 2 (3 − √(w² − 9)) / 106: 1e-8 m of width at 3 m is 5e-6
    tolerance: 5e-6,
    directedHausdorff: 4.242640687119286,
  },
  {
    name: 'inside of a corner at 3 m',
    tested: [
      [3, 50],
      [3, 3],
      [50, 3],
    ],
    reference: [
      [0, 50],
      [0, 0],
      [50, 0],
    ],
    shares: [[3, 1]],
    directedHausdorff: 3,
  },
];
