import { Sum } from '../geodesy';
import { checkChoice, checkColumn, checkLength, checkOptions } from '../model';
import { radialQuantile } from './radialQuantile';

/** Options of {@link circularError}. */
export interface CircularErrorOptions {
  /**
   * Which axes the exact radii take for independent: the `given` ones (x and y, as the standards do), or the `principal`
   * ones of the errors' second moments, for errors that are correlated between x and y.
   * @defaultValue 'given'
   */
  readonly axes?: 'given' | 'principal';
}

/** What {@link circularError} says of errors in the plane; all lengths in the unit of the columns. All are **radial**. */
export interface CircularError {
  /** Radius that holds 50 % of the errors: 1.1774 sigma for equal axes. */
  readonly cep50: number;
  /** Radius that holds 90 %: 2.1460 sigma for equal axes. */
  readonly ce90: number;
  /** Radius that holds 95 %: 2.4477 sigma for equal axes. */
  readonly ce95: number;
  /** Root mean square radius, √(rmseX² + rmseY²); NSSDA calls it RMSEr. */
  readonly drms: number;
  /** 2 × `drms`: holds 95.4 % to 98.2 %, so it is no 95 % radius. */
  readonly twoDrms: number;
  readonly rmseX: number;
  readonly rmseY: number;
  /** Length of the mean error vector. */
  readonly bias: number;
  /** Mean of `dx`, with its sign. */
  readonly meanX: number;
  /** Mean of `dy`, with its sign. */
  readonly meanY: number;
  /** NSSDA's horizontal accuracy for equal axes, 1.7308 × RMSEr (2.4477 / √2): exact only where rmseX = rmseY. */
  readonly nssdaEqualAxes: number;
  /**
   * NSSDA's approximation for unequal axes, 2.4477 × (rmseX + rmseY) / 2; absent where the smaller is less than 0.6 of the
   * larger, outside the standard's range.
   */
  readonly nssdaUnequalAxes?: number;
}

/**
 * Radial accuracy of errors in the plane, in the unit of the two columns.
 *
 * `cep50`, `ce90` and `ce95` are the exact radii of a bivariate normal error about 0 whose axes have the standard
 * deviations `rmseX` and `rmseY`, whatever their ratio: 2.4477 sigma at 95 % for equal axes, 1.9600 where one axis has no
 * error. They are radii of positions: for cross-track offsets, which are one-dimensional, use {@link offsetStatistics}.
 *
 * @param dx - errors along the first axis (east), one a check point
 * @param dy - errors along the second (north), as many
 *
 * @example
 * circularError([3, -3], [4, -4]) // → { drms: 5, rmseX: 3, rmseY: 4, bias: 0, nssdaEqualAxes: 8.654… }
 * circularError([1, -1], [1, -1]).ce95 // → 2.4477…
 * circularError([1, -1], [0, 0]).ce95 // → 1.9599…
 *
 * @throws {InputError} no error, columns of different length, a NaN, or a number beyond ±1e90
 * @remarks NSSDA asks for at least 20 check points. Radii to 1e-12 relative; O(n).
 * @see FGDC-STD-007.3-1998 (NSSDA), 3.2.1 and appendix 3-A
 */
export function circularError(
  dx: ArrayLike<number>,
  dy: ArrayLike<number>,
  options: CircularErrorOptions = {},
): CircularError {
  checkOptions(options, { axes: true });
  const { axes = 'given' } = options;
  checkChoice(axes, 'options.axes', ['given', 'principal']);
  checkColumn(dx, 'dx');
  checkColumn(dy, 'dy');
  const n = dx.length;
  checkLength(dy, 'dy', n, 'dx');
  const [x, y, xx, yy, xy] = Array.from({ length: 5 }, () => new Sum());
  for (let i = 0; i < n; i++) {
    x.add(dx[i]);
    y.add(dy[i]);
    xx.add(dx[i] * dx[i]);
    yy.add(dy[i] * dy[i]);
    xy.add(dx[i] * dy[i]);
  }
  const rmseX = Math.sqrt(xx.value / n);
  const rmseY = Math.sqrt(yy.value / n);
  const drms = Math.hypot(rmseX, rmseY);
  const larger = Math.max(rmseX, rmseY);
  const smaller = Math.min(rmseX, rmseY);
  let [major, minor] = [larger, smaller];
  if (axes === 'principal') {
    const half = Math.hypot((xx.value - yy.value) / (2 * n), xy.value / n);
    major = Math.sqrt((drms * drms) / 2 + half);
    minor = Math.sqrt(Math.max(0, (drms * drms) / 2 - half));
  }
  const meanX = x.value / n;
  const meanY = y.value / n;
  return {
    cep50: radialQuantile(0.5, major, minor),
    ce90: radialQuantile(0.9, major, minor),
    ce95: radialQuantile(0.95, major, minor),
    drms,
    twoDrms: 2 * drms,
    rmseX,
    rmseY,
    bias: Math.hypot(meanX, meanY),
    meanX,
    meanY,
    nssdaEqualAxes: 1.7308 * drms,
    ...(smaller >= 0.6 * larger ? { nssdaUnequalAxes: (2.4477 * (rmseX + rmseY)) / 2 } : {}),
  };
}
