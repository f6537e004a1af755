/**
 * Linear referencing on plane lines: PostGIS 3.3 manual, reference of ST_LineInterpolatePoint, ST_LineInterpolatePoints,
 * ST_LineSubstring, ST_LineLocatePoint, ST_InterpolatePoint and ST_AddMeasure, the example of each. Plane units.
 */
export const linearReferencing = {
  interpolate: {
    line: [
      [25, 50],
      [100, 125],
      [150, 190],
    ],
    fraction: 0.2,
    points: [
      [51.5974135047432, 76.5974135047432],
      [78.1948270094864, 103.194827009486],
      [104.132163186446, 130.37181214238],
      [127.066081593223, 160.18590607119],
      [150, 190],
    ],
  },
  substring: {
    line: [
      [20, 180],
      [50, 20],
      [90, 80],
      [120, 40],
      [180, 150],
    ],
    from: 0.333,
    to: 0.666,
    part: [
      [45.17311810399485, 45.74337011202746],
      [50, 20],
      [90, 80],
      [112.97593050157862, 49.36542599789519],
    ],
  },
  locate: {
    line: [
      [1, 2],
      [4, 5],
      [6, 7],
    ],
    point: [4, 3],
    fraction: 0.4,
    foot: [3, 4],
  },
  /** The measure runs from 0 to 20 along the line. */
  measured: {
    line: [
      [0, 0],
      [10, 0],
    ],
    most: 20,
    point: [5, 5],
    measure: 10,
  },
  /** Measures from 1 to 4 spread along the line, at each vertex. */
  spread: {
    line: [
      [1, 0],
      [2, 0],
      [4, 0],
    ],
    first: 1,
    last: 4,
    measures: [1, 2, 4],
  },
};
