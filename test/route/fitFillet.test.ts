import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fitFillet } from '../../src/route/fitFillet';

const WIDE = [1e6, 1e6] as const;
const degrees = (value: number) => (value * Math.PI) / 180;

/**
 * Tangent T = r tan(θ/2), distance of the corner from the arc E = r (sec(θ/2) − 1), length saved 2T − rθ: the curve formulas of
 * route surveying, here for r = 3 m worked out by hand to the centimetre.
 */
test.each([
  { bend: 30, tangent: 0.8, saved: 0.04 },
  { bend: 60, tangent: 1.73, saved: 0.32 },
  { bend: 90, tangent: 3.0, saved: 1.29 },
  { bend: 120, tangent: 5.2, saved: 4.11 },
  { bend: 170, tangent: 34.29, saved: 59.68 },
])('between straight lines that turn by $bend° the fillet is the one of the tables', ({ bend, tangent, saved }) => {
  const fillet = fitFillet({ bend: degrees(bend), curvature: [0, 0] }, 3, WIDE);
  expect(Math.abs(fillet.tangent[0] - tangent)).toBeLessThan(0.005);
  expect(Math.abs(2 * fillet.tangent[0] - fillet.radius * fillet.sweep - saved)).toBeLessThan(0.005);
});

/** Corners of lines and arcs that turn either way. */
const corners = fc.record({
  bend: fc.double({ min: 0.01, max: degrees(175), noNaN: true }),
  curvature: fc.tuple(
    fc
      .constantFrom(0, 1, -1)
      .chain((sign) => fc.double({ min: 2, max: 500, noNaN: true }).map((radius) => sign / radius)),
    fc
      .constantFrom(0, 1, -1)
      .chain((sign) => fc.double({ min: 2, max: 500, noNaN: true }).map((radius) => sign / radius)),
  ),
});
const rooms = fc.tuple(fc.double({ min: 0.1, max: 20, noNaN: true }), fc.double({ min: 0.1, max: 20, noNaN: true }));

test('the arc leaves what arrives and meets what leaves, in their directions, within the room', () => {
  fc.assert(
    fc.property(corners, fc.double({ min: 0.1, max: 30, noNaN: true }), rooms, (corner, radius, room) => {
      const fillet = fitFillet(corner, radius, room);
      expect(fillet.radius).toBeGreaterThan(0);
      expect(fillet.radius).toBeLessThanOrEqual(radius);
      expect(fillet.tangent[0]).toBeLessThanOrEqual(room[0] * (1 + 1e-12));
      expect(fillet.tangent[1]).toBeLessThanOrEqual(room[1] * (1 + 1e-12));
      // walked in the plane chord by chord, knowing nothing of tangents: back along what arrives, on along the arc
      const walk = (x: number, y: number, azimuth: number, curvature: number, metres: number) => {
        const steps = 50;
        const angle = (curvature * metres) / steps;
        const chord = angle === 0 ? metres / steps : (2 * Math.sin(angle / 2)) / curvature;
        let [px, py, direction] = [x, y, azimuth];
        for (let i = 0; i < steps; i++) {
          px += Math.cos(direction + angle / 2) * chord;
          py += Math.sin(direction + angle / 2) * chord;
          direction += angle;
        }
        return { x: px, y: py, direction };
      };
      const begin = walk(0, 0, 0, corner.curvature[0], -fillet.tangent[0]);
      const arc = walk(begin.x, begin.y, begin.direction, 1 / fillet.radius, fillet.radius * fillet.sweep);
      const end = walk(0, 0, corner.bend, corner.curvature[1], fillet.tangent[1]);
      expect(Math.hypot(arc.x - end.x, arc.y - end.y)).toBeLessThan(1e-7);
      expect(Math.abs(arc.direction - end.direction)).toBeLessThan(1e-9);
    }),
    { seed: 4, numRuns: 300 },
  );
});

test('where there is room the radius is the one asked for', () => {
  fc.assert(
    fc.property(corners, (corner) => {
      fc.pre(corner.bend < degrees(120));
      expect(fitFillet(corner, 0.5, [20, 20]).radius).toBe(0.5);
    }),
    { seed: 5, numRuns: 200 },
  );
});

test('where there is none it is the widest that fits', () => {
  fc.assert(
    fc.property(corners, rooms, (corner, room) => {
      const { tangent, radius, sweep } = fitFillet(corner, 1000, room);
      const filled = radius === 1000 || Math.min(room[0] - tangent[0], room[1] - tangent[1]) < 1e-6;
      // or an arc of the corner's own side leaves no wider one: its centre is the other's, or half a turn is reached
      const curled = Math.max(...corner.curvature) * radius > 0.9 || sweep > degrees(170);
      expect(filled || curled).toBe(true);
    }),
    { seed: 6, numRuns: 300 },
  );
});
