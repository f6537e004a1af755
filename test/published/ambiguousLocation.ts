/**
 * Linear referencing where the nearest place is ambiguous, in a plane.
 *
 * Source: PostGIS 3.3 manual, ST_LineLocatePoint; the values re-run on PostGIS 3.3.2 with GEOS 3.11.1. Fractions are of
 * the line's length.
 */
export const ambiguousLocation = [
  {
    what: 'out and back on one line: the first of the two',
    line: [
      [0, 0],
      [10, 0],
      [0, 0],
    ],
    point: [3, 1],
    first: 0.15,
    all: [0.15, 0.85],
  },
  {
    what: 'before the start: the start',
    line: [
      [0, 0],
      [10, 0],
    ],
    point: [-5, 3],
    first: 0,
    all: [0],
  },
  {
    what: 'a loop nearly closed, as near to its start as to its end: the start',
    line: [
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 10],
      [0, 0.5],
    ],
    point: [0, 0.25],
    first: 0,
    all: [0, 1],
  },
] as const;
