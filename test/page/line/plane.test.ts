import { direct, inverse, localPlane } from 'datumline';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fitPicture } from '../../../src/page/line/fitPicture';
import { mapPlane } from '../../../src/page/line/mapPlane';
import { readWorldFile } from '../../../src/page/line/readWorldFile';

const origins = [
  [5, 60],
  [-179.9999, -20],
  [12, 89.99],
  [12, 90],
  [0, -90],
  [100, 0],
];

describe('the plane of the map', () => {
  test.each(origins)('about [%d, %d]: there and back to a millimetre, lengths to (e²/4)(d/R) + (d/2R)²', (lon, lat) => {
    const plane = mapPlane([lon, lat]);
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.double({ min: 1, max: 20000, noNaN: true }),
        (azimuth, far) => {
          const { position } = direct([lon, lat], azimuth, far);
          const place = plane.toPlane(position);
          expect(inverse(plane.toPosition(place), position).distance).toBeLessThan(1e-3);
          // near a pole the origin is moved by a metre
          const moved = Math.abs(lat) === 90 ? 1.2 : 1e-6;
          expect(Math.abs(Math.hypot(...place) - far)).toBeLessThan(
            moved + 1.01 * far * ((0.00669438 / 4) * (far / 6335439) + (far / (2 * 6335439)) ** 2),
          );
        },
      ),
      { numRuns: 100 },
    );
  });

  test('beside the azimuthal equidistant plane of the library, 100 m from the origin: within 0.1 mm', () => {
    const [ours, theirs] = [mapPlane([5, 60]), localPlane([5, 60])];
    for (const azimuth of [0, 45, 133, 270]) {
      const { position } = direct([5, 60], azimuth, 100);
      const [east, north] = theirs.toPlane(position);
      expect(ours.toPlane(position)[0]).toBeCloseTo(east, 4);
      expect(ours.toPlane(position)[1]).toBeCloseTo(north, 4);
    }
  });

  test('angles are kept 50 km away, where azimuths are those of geodesics', () => {
    const plane = mapPlane([5, 60]);
    const corner = direct([5, 60], 70, 50000).position;
    const at = plane.toPlane(corner);
    const ways = [10, 100, 200].map((azimuth) => {
      const [east, north] = plane.toPlane(direct(corner, azimuth, 10).position);
      return (Math.atan2(east - at[0], north - at[1]) * 180) / Math.PI;
    });
    expect((ways[1] - ways[0] + 360) % 360).toBeCloseTo(90, 3);
    expect((ways[2] - ways[1] + 360) % 360).toBeCloseTo(100, 3);
  });
});

describe('a picture placed', () => {
  const flat = ([east, north]: number[]) => [east, north] as [number, number];

  test('by two points: turned and scaled, its rows running down, no residual to tell', () => {
    // 0.5 m an element, turned by a quarter to the left: what is right in the picture is north
    const fit = fitPicture(
      [
        { x: 0, y: 0, position: [100, 200] },
        { x: 100, y: 0, position: [100, 250] },
      ],
      flat,
    )!;
    expect(fit).toMatchObject({ kind: 'similarity', residual: null });
    // down in the picture is then east
    expect([fit.a * 0 + fit.c * 40 + fit.e, fit.b * 0 + fit.d * 40 + fit.f]).toEqual([
      expect.closeTo(120, 9),
      expect.closeTo(200, 9),
    ]);
  });

  test('by more than three: least squares, the residual over the degrees of freedom', () => {
    // A unit square seen askew with one corner pulled by 4 m: of 2 × 4 observations 6 are used up. The plane through four
    // corners misses each by a quarter of the pull, hence 1 m everywhere: √(4 · 1 / 2).
    const at = [
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 10],
    ];
    const points = at.map(([x, y], i) => ({ x, y, position: [2 * x + y + (i === 2 ? 4 : 0), 3 * y - x] }));
    const fit = fitPicture(points, flat)!;
    expect(fit.kind).toBe('affine');
    expect(fit.residuals).toEqual([1, 1, 1, 1].map((metre) => expect.closeTo(metre, 9)));
    expect(fit.residual).toBeCloseTo(Math.SQRT2, 9);
    // the normal equations: residuals add up to nothing, and to nothing weighed by x and y
    const east = points.map(({ x, y, position }) => fit.a * x + fit.c * y + fit.e - position[0]);
    for (const weight of [() => 1, (i: number) => at[i][0], (i: number) => at[i][1]]) {
      expect(east.reduce((sum, one, i) => sum + one * weight(i), 0)).toBeCloseTo(0, 9);
    }
  });

  test('points on one line, or in one place, tell no more than they can', () => {
    const row = [0, 50, 100].map((x) => ({ x, y: 7, position: [x, 0] }));
    expect(fitPicture(row, flat)?.kind).toBe('similarity');
    expect(fitPicture(row.slice(0, 1), flat)).toBeNull();
    expect(fitPicture([row[0], row[0]], flat)).toBeNull();
  });

  // The upper left element's middle is at the last two numbers: common practice of world files, no standard.
  test('a world file in degrees places the corners; one in metres is refused', () => {
    const corners = readWorldFile('0.00001\n0\n0\n-0.00001\n5\n60\n', { width: 200, height: 100 });
    expect(corners[0].position).toEqual([expect.closeTo(4.999995, 9), expect.closeTo(60.000005, 9)]);
    expect(corners[2]).toMatchObject({
      x: 200,
      y: 100,
      position: [expect.closeTo(5.001995, 9), expect.closeTo(59.999005, 9)],
    });
    expect(() => readWorldFile('0.5 0 0 -0.5 512000 6650000', { width: 2, height: 2 })).toThrow(
      /world file must be in degrees/,
    );
    expect(() => readWorldFile('1 2 3', { width: 2, height: 2 })).toThrow(/world file must be six numbers/);
  });
});
