/**
 * Baselga & Martínez-Llario, Intersection and point-to-line solutions for geodesics on the ellipsoid, Stud. Geophys. Geod.
 * 62 (2018) 353–363, doi:10.1007/s11200-017-1020-z; result listings of the authors' public PL/pgSQL functions, cases 1–4
 * from the paper. WGS 84. The digits are as printed there. The listings in seconds stop iterating at steps of 1e-5″, so that
 * their last digits are good to 3e-5″ only.
 */
export const intersections: readonly (readonly [
  number: number,
  a: readonly [lat: number, lon: number],
  b: readonly [lat: number, lon: number],
  c: readonly [lat: number, lon: number],
  d: readonly [lat: number, lon: number],
  crossing: readonly [lat: string, lon: string],
  alongFirst: string,
  alongSecond: string,
])[] = [
  [
    1,
    [54, 14.5],
    [54.2, 14.6],
    [54.1, 14.4],
    [54, 14.7],
    ['54.0573013091912', '14.5285478498717'],
    '6646.65565016',
    '9663.2474396',
  ],
  [
    2,
    [52, 5],
    [51.4, 6],
    [51.5, 4.5],
    [52, 5.5],
    ['51.8656654013763', '5.22745711452158'],
    '21637.10319232',
    '64703.2463332',
  ],
  [
    3,
    [42, 29],
    [39, -77],
    [6, 0],
    [64, -22],
    ['54.7170296089477', '-14.5638557443078'],
    '3454490.28172529',
    '5558129.37316681',
  ],
  [
    4,
    [35, -92],
    [40, 52],
    [-8, 20],
    [49, -95],
    ['50.4790974467667', '-79.282801686624'],
    '2003881.86798765',
    '11347603.1157086',
  ],
];

/** Case 3 of the paper, as printed in degrees, minutes and seconds. */
export const crossingInSeconds = ['54:43:1.3066N', '14:33:49.8807W'] as const;

/** Feet of `point` on the line `from`–`to`, [lat, lon], printed in degrees, minutes and seconds. */
export const feet = [
  { point: [52, 5.5], from: [52, 5], to: [51.4, 6], foot: ['51:50:45.9212N', '5:15:37.5426E'] },
  { point: [64, -22], from: [42, 29], to: [39, -77], foot: ['54:55:42.71339N', '21:56:14.24782W'] },
] as const;
