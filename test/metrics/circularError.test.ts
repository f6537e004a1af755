import { circularError } from 'datumline/metrics';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  asprsFivePoints,
  circularNormal,
  ellipticalNormal,
  linearNormal,
  nssda,
} from '../published/positionalAccuracy';

/** Two errors whose axes have exactly these root mean squares. */
const axes = (x: number, y: number) => [
  [x, -x, x, -x],
  [y, y, -y, -y],
];

test('the five check points of the ASPRS example', () => {
  const { x, y } = asprsFivePoints.residuals;
  const { published } = asprsFivePoints;
  const error = circularError(x, y);
  expect(Math.abs(error.rmseX - published.rmse[0])).toBeLessThanOrEqual(5e-4);
  expect(Math.abs(error.rmseY - published.rmse[1])).toBeLessThanOrEqual(5e-4);
  expect(Math.abs(error.drms - published.rmseR)).toBeLessThanOrEqual(5e-4);
  for (const radius of [error.ce95, error.nssdaEqualAxes, error.nssdaUnequalAxes!]) {
    expect(Math.abs(radius - published.accuracyR)).toBeLessThanOrEqual(5e-4);
  }
  expect(error.meanX).toBeCloseTo(-0.0326, 12);
  expect(error.bias).toBeCloseTo(Math.hypot(0.0326, 0.006), 12);
});

test('the circular factors', () => {
  const [dx, dy] = axes(2, 2);
  const error = circularError(dx, dy);
  expect(error.cep50).toBeCloseTo(2 * circularNormal.CEP50, 12);
  expect(error.ce90).toBeCloseTo(2 * circularNormal.CE90, 12);
  expect(error.ce95).toBeCloseTo(2 * circularNormal.R95, 12);
  expect(error.cep50 / error.drms).toBeCloseTo(circularNormal.ofDrms.CEP50, 12);
  expect(error.ce90 / error.drms).toBeCloseTo(circularNormal.ofDrms.CE90, 12);
  expect(error.ce95 / error.drms).toBeCloseTo(circularNormal.ofDrms.R95, 12);
  expect(error.twoDrms).toBeCloseTo(4 * Math.SQRT2, 12);
  expect(error.nssdaEqualAxes).toBeCloseTo(nssda.ofRmseR * error.drms, 12);
  expect(error.nssdaUnequalAxes).toBeCloseTo(nssda.radial * 2, 12);
});

test.each(ellipticalNormal)('exact radii at an axis ratio of $ratio', ({ ratio, R50, R90, R95 }) => {
  for (const [dx, dy] of [axes(1, ratio), axes(ratio, 1)]) {
    const error = circularError(dx, dy);
    expect(Math.abs(error.cep50 - R50)).toBeLessThan(1e-11);
    expect(Math.abs(error.ce90 - R90)).toBeLessThan(1e-11);
    expect(Math.abs(error.ce95 - R95)).toBeLessThan(1e-11);
    expect(error.nssdaUnequalAxes === undefined).toBe(ratio < nssda.leastRatio);
  }
});

test('with no error across, the radius is one-dimensional', () => {
  const [dx, dy] = axes(3, 0);
  const error = circularError(dx, dy);
  expect(error.cep50).toBeCloseTo(3 * linearNormal.LE50, 10);
  expect(error.ce90).toBeCloseTo(3 * linearNormal.LE90, 10);
  expect(error.ce95).toBeCloseTo(3 * linearNormal.LE95, 10);
});

test('principal axes find the same radii whichever way the axes were turned', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 6.3, noNaN: true }),
      fc.double({ min: 0.1, max: 1, noNaN: true }),
      (angle, ratio) => {
        const [dx, dy] = axes(1, ratio);
        const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
        const turned = circularError(
          dx.map((x, i) => x * cos - dy[i] * sin),
          dx.map((x, i) => x * sin + dy[i] * cos),
          { axes: 'principal' },
        );
        expect(turned.ce95).toBeCloseTo(circularError(dx, dy).ce95, 9);
        expect(turned.drms).toBeCloseTo(Math.hypot(1, ratio), 9);
      },
    ),
    { seed: 8, numRuns: 100 },
  );
});

test('no error at all has radius 0', () => {
  expect(circularError([0], [0])).toEqual({
    cep50: 0,
    ce90: 0,
    ce95: 0,
    drms: 0,
    twoDrms: 0,
    rmseX: 0,
    rmseY: 0,
    bias: 0,
    meanX: 0,
    meanY: 0,
    nssdaEqualAxes: 0,
    nssdaUnequalAxes: 0,
  });
});

test.each([
  [[], [], undefined, 'too-few', 'dx'],
  [[1], [1, 2], undefined, 'out-of-range', 'dy length'],
  [[1], [Number.NaN], undefined, 'not-finite', 'dy[0]'],
  [[1], undefined, undefined, 'wrong-type', 'dy'],
  [[1], [1], { axis: 'principal' }, 'unknown-key', 'options.axis'],
  [[1], [1], { axes: 'own' }, 'wrong-type', 'options.axes'],
])('refuses %j, %j, %j', (dx, dy, options, reason, argument) => {
  expect(() => circularError(dx, dy as number[], options as object)).toThrow(
    expect.objectContaining({ reason, argument }),
  );
});
