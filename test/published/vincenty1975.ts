/**
 * Vincenty, Direct and inverse solutions of geodesics on the ellipsoid with application of nested equations, Survey Review
 * XXIII (176), April 1975, table II, lines a–e (b–e from Rainsford 1955). Line a on Bessel 1841, b–e on International 1924.
 * Degrees from the printed degrees, minutes and seconds; all angles printed to 1e-5″, distances to 1 mm.
 */
export const vincenty1975 = [
  {
    line: 'a',
    a: 6377397.155,
    inverseFlattening: 299.1528128,
    lat1: 55.75,
    lat2: -33.433333333333,
    dlon: 108.216666666667,
    azi1: 96.6024443333,
    azi2: 137.8727818167,
    distance: 14110526.17,
  },
  {
    line: 'b',
    a: 6378388,
    inverseFlattening: 297,
    lat1: 37.331931575,
    lat2: 26.128566516667,
    dlon: 41.476529802778,
    azi1: 95.4665641361,
    azi2: 118.0997115583,
    distance: 4085966.703,
  },
  {
    line: 'c',
    a: 6378388,
    inverseFlattening: 297,
    lat1: 35.269791283333,
    lat2: 67.370771216667,
    dlon: 137.791198430556,
    azi1: 15.7399301389,
    azi2: 144.9277559639,
    distance: 8084823.839,
  },
  {
    line: 'd',
    a: 6378388,
    inverseFlattening: 297,
    lat1: 1,
    lat2: -0.998286322222,
    dlon: 179.296674991667,
    azi1: 89,
    azi2: 91.0016992583,
    distance: 19960000,
  },
  {
    line: 'e',
    a: 6378388,
    inverseFlattening: 297,
    lat1: 1,
    lat2: 1.020885977778,
    dlon: 179.7716229,
    azi1: 4.9999999861,
    azi2: 174.9999680028,
    distance: 19780006.558,
  },
] as const;
