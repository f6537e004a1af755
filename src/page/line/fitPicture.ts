import type { ControlPoint } from './PlacedPicture';

/** Where picture elements lie in the plane: east = a x + c y + e, north = b x + d y + f. */
export interface PictureFit {
  readonly kind: 'similarity' | 'affine';
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
  /** Metres by which each control point is missed. */
  readonly residuals: readonly number[];
  /** Root mean square of them over the degrees of freedom left; null where there are none. */
  readonly residual: number | null;
}

/**
 * The placing of a picture by its control points: a similarity (turned, scaled, not mirrored) by two, an affine map by least
 * squares by three and more, or by three and more on one line a similarity again.
 *
 * @param toPlane - Where a control point's position lies in the plane, metres.
 * @returns null with fewer than two points, or all of them in one place
 * @see Mikhail, Observations and Least Squares, 1976, on conformal and affine transformations; normal equations about the middle
 */
export function fitPicture(
  points: readonly ControlPoint[],
  toPlane: (position: ControlPoint['position']) => readonly [east: number, north: number],
): PictureFit | null {
  if (points.length < 2) return null;
  const n = points.length;
  const places = points.map(({ position }) => toPlane(position));
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / n;
  const [mx, my] = [mean(points.map(({ x }) => x)), mean(points.map(({ y }) => y))];
  const [me, mn] = [mean(places.map(([east]) => east)), mean(places.map(([, north]) => north))];
  let [xx, xy, yy, xe, ye, xn, yn] = [0, 0, 0, 0, 0, 0, 0];
  points.forEach(({ x, y }, i) => {
    const [u, v, east, north] = [x - mx, y - my, places[i][0] - me, places[i][1] - mn];
    xx += u * u;
    xy += u * v;
    yy += v * v;
    xe += u * east;
    ye += v * east;
    xn += u * north;
    yn += v * north;
  });
  const spread = xx + yy;
  if (!(spread > 0)) return null;
  const determinant = xx * yy - xy * xy;
  const affine = n >= 3 && determinant > 1e-6 * spread * spread;
  // the rows of a picture run down, so that a similarity has c = b and d = -a
  const [p, q] = [(xe - yn) / spread, (xn + ye) / spread];
  const [a, b, c, d] = affine
    ? [
        (xe * yy - ye * xy) / determinant,
        (xn * yy - yn * xy) / determinant,
        (ye * xx - xe * xy) / determinant,
        (yn * xx - xn * xy) / determinant,
      ]
    : [p, q, q, -p];
  if (!(Math.abs(a * d - b * c) > 0)) return null;
  const [e, f] = [me - a * mx - c * my, mn - b * mx - d * my];
  const residuals = points.map(({ x, y }, i) =>
    Math.hypot(a * x + c * y + e - places[i][0], b * x + d * y + f - places[i][1]),
  );
  const free = 2 * n - (affine ? 6 : 4);
  const squares = residuals.reduce((sum, one) => sum + one * one, 0);
  return {
    kind: affine ? 'affine' : 'similarity',
    ...{ a, b, c, d, e, f },
    residuals,
    residual: free > 0 ? Math.sqrt(squares / free) : null,
  };
}
