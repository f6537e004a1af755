import { inverse, localPlane } from 'datumline/geodesy';
import { type LegBuilder, type Route, type RouteOptions, routeBuilder, routeFromLine } from 'datumline/route';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { onEquator } from '../support/onEquator';

const start = [8.1234567, 47.7654321];
const RADIUS = 3;
const rounded: RouteOptions = { cornerRadius: RADIUS, maxSagitta: 0.001, maxSpacing: 20, lateral95: 0.5 };

/** Degrees turned between two chords of an arc of 3 m that lie 1 mm inside of it; a little more where the way back is chords itself. */
const CHORD_TURN = (2 * Math.acos(1 - 0.001 / RADIUS) * 180) / Math.PI + 0.2;

/** The sharpest bend of a route in degrees, and where it is. */
function sharpestBend({ lon, lat, alongTrack }: Route): { bend: number; at: number } {
  let sharpest = { bend: 0, at: 0 };
  for (let i = 1; i + 1 < lon.length; i++) {
    const before = inverse([lon[i - 1], lat[i - 1]], [lon[i], lat[i]]).finalAzimuth;
    const after = inverse([lon[i], lat[i]], [lon[i + 1], lat[i + 1]]).initialAzimuth;
    const bend = Math.abs(((after - before + 540) % 360) - 180);
    if (bend > sharpest.bend) sharpest = { bend, at: alongTrack[i] };
  }
  return sharpest;
}

const reasons = (route: Route) => route.warnings.map(({ reason }) => reason);

const legs = fc.array(
  fc.oneof(
    fc.record({ turn: fc.double({ min: -140, max: 140, noNaN: true }), distance: fc.integer({ min: 40, max: 200 }) }),
    fc.record({
      turn: fc.constantFrom('left' as const, 'right' as const),
      radius: fc.integer({ min: 25, max: 90 }),
      sweep: fc.integer({ min: 70, max: 200 }),
    }),
  ),
  { minLength: 2, maxLength: 8 },
);

test('every corner is rounded with the radius, between lines and arcs alike, on the way back too', () => {
  fc.assert(
    fc.property(legs, fc.boolean(), (drawn, back) => {
      const draw = (builder: LegBuilder) => {
        let azimuth = 0;
        for (const leg of drawn) {
          if ('radius' in leg) {
            builder.arc(leg);
            azimuth += leg.turn === 'right' ? leg.sweep : -leg.sweep;
          } else {
            azimuth += leg.turn;
            builder.lineBy({ azimuth, distance: leg.distance });
          }
        }
      };
      const builder = routeBuilder(rounded).start(start, { azimuth: 0 });
      if (back) builder.outAndBack(draw, { returnBeside: { side: 'left', metres: 8 } });
      else draw(builder);
      const route = builder.build();
      expect(reasons(route)).not.toContain('tight-corner');
      expect(sharpestBend(route).bend).toBeLessThan(CHORD_TURN);
      for (const { radius } of route.arcs) expect([RADIUS, 4].includes(radius) || radius >= 17).toBe(true);
    }),
    { seed: 11, numRuns: 40 },
  );
});

test('on the same line back, corners beside arcs are rounded as on the way out, and the tip is a point', () => {
  const route = routeBuilder(rounded)
    .start(start)
    .outAndBack((out) =>
      out
        .lineBy({ azimuth: 0, distance: 100 })
        .arc({ turn: 'right', radius: 30, sweep: 90 })
        .lineBy({ azimuth: 10, distance: 50 }),
    )
    .build();
  expect(Math.abs(sharpestBend(route).at - route.length / 2)).toBeLessThan(1e-6);
  const fillets = route.arcs.filter(({ radius }) => radius === RADIUS);
  // one arc a corner, out and back
  expect(fillets.map(({ turn }) => turn)).toEqual(['left', 'right']);
  expect(Math.abs(fillets[0].length - fillets[1].length)).toBeLessThan(1e-6);
});

test('corners of followed lines are rounded; the curve round the outside of one stays as wide as the offset', () => {
  const street = onEquator([
    [0, 0],
    [100, 0],
    [100, 80],
    [200, 80],
  ]);
  const on = routeBuilder(rounded).follow(street).build();
  expect(on.arcs.map(({ radius }) => radius)).toEqual([3, 3]);
  const beside = routeBuilder(rounded).follow(street, { side: 'right', metres: 2 }).build();
  // the first corner turns left, away from the right side: an arc 2 m round it; the second is an inside one
  expect(beside.arcs.map(({ turn, radius }) => [turn, radius])).toEqual([['right', 3]]);
  const { toPlane } = localPlane(onEquator([[100, 0]])[0]);
  const round = Array.from(beside.lon, (lon, i) => toPlane([lon, beside.lat[i]])).filter(([x, y]) => x > 0 && y < 0);
  expect(round.length).toBeGreaterThan(10);
  for (const [x, y] of round) expect(Math.abs(Math.hypot(x, y) - 2)).toBeLessThan(1e-3);
});

test('a corner saves 2T − rθ', () => {
  const square = onEquator([
    [0, 0],
    [100, 0],
    [100, 100],
  ]);
  const { length, arcs } = routeFromLine(square, { ...rounded, maxSagitta: 1e-5 });
  // T = r, θ = π/2
  expect(Math.abs(length - (200 - RADIUS * (2 - Math.PI / 2)))).toBeLessThan(1e-4);
  // one corner, one arc
  expect(arcs.length).toBe(1);
  expect(Math.abs(arcs[0].length - (RADIUS * Math.PI) / 2)).toBeLessThan(1e-6);
  expect(Math.abs(arcs[0].to - arcs[0].from - arcs[0].length)).toBeLessThan(1e-3);
});

test('legs too short for the radius share their length in proportion, with a warning', () => {
  const short = onEquator([
    [0, 0],
    [100, 0],
    [100, 3],
    [200, 3],
  ]);
  const route = routeFromLine(short, rounded);
  expect(route.arcs.map(({ radius }) => radius.toFixed(6))).toEqual(Array(2).fill('1.500000'));
  expect(reasons(route)).toContain('tight-corner');
});

test('a turn over 150° is rounded no further back than the radius: a near semicircle as wide as its legs are apart there', () => {
  const hairpin = onEquator([
    [0, 0],
    [100, 0],
    [0, 10],
  ]);
  const route = routeFromLine(hairpin, rounded);
  const width = 2 * RADIUS * Math.sin(Math.atan2(10, 100) / 2);
  expect(Math.abs(2 * route.arcs[0].radius - width)).toBeLessThan(0.01);
  expect(reasons(route)).toContain('sharp-turn');
  const there = routeFromLine(
    onEquator([
      [0, 0],
      [100, 0],
      [50, 0],
    ]),
    rounded,
  );
  expect(there.arcs).toEqual([]);
  expect(Math.abs(there.length - 150)).toBeLessThan(1e-6);
  expect(reasons(there)).toContain('sharp-turn');
});

test('a U-turn is a semicircle as wide as asked', () => {
  for (const side of ['left', 'right'] as const) {
    const route = routeBuilder(rounded)
      .start(start)
      .lineBy({ azimuth: 40, distance: 100 })
      .uTurn({ side, width: 10 })
      .lineBy({ azimuth: 220, distance: 100 })
      .build();
    expect(route.arcs).toMatchObject([{ turn: side, radius: 5 }]);
    expect(Math.abs(route.arcs[0].length - 5 * Math.PI)).toBeLessThan(1e-6);
    const last = route.lon.length - 1;
    const apart = inverse(start, [route.lon[last], route.lat[last]]);
    // meridians converge by 1e-5 rad over the 100 m
    expect(Math.abs(apart.distance - 10)).toBeLessThan(2e-3);
    expect(Math.abs(apart.initialAzimuth - (side === 'right' ? 130 : 310))).toBeLessThan(0.01);
  }
});

/** Chord c = 2 √(2rs − s²) for a sagitta s: the formula of the circle, worked out here to the centimetre by hand. */
test.each([
  { sagitta: 0.01, radius: 3, chord: 0.49 },
  { sagitta: 0.01, radius: 36.8, chord: 1.72 },
  { sagitta: 0.05, radius: 5, chord: 1.41 },
  { sagitta: 0.05, radius: 100, chord: 6.32 },
  { sagitta: 0.1, radius: 10, chord: 2.82 },
])('chords of an arc of $radius m within $sagitta m of it are up to $chord m long', ({ sagitta, radius, chord }) => {
  const { alongTrack } = routeBuilder({ maxSagitta: sagitta, maxSpacing: 1000 })
    .start(start, { azimuth: 30 })
    .arc({ turn: 'left', radius, sweep: 360 })
    .build();
  const longest = Math.max(...Array.from(alongTrack.subarray(1), (at, i) => at - alongTrack[i]));
  expect(longest).toBeLessThan(chord + 0.005);
  // and no more of them than that takes
  const needed = Math.PI / Math.asin(Math.sqrt(2 * radius * sagitta - sagitta ** 2) / radius);
  expect(alongTrack.length - 1).toBe(Math.ceil(needed));
});

test('a corner with a radius of its own has it, in every lap and on the way back; 0 leaves it sharp', () => {
  // a right angle loses 2r of its legs to a quarter of a circle
  const saved = (radius: number) => (2 - Math.PI / 2) * radius;
  const [west, corner, north] = onEquator([
    [0, 0],
    [200, 0],
    [200, 200],
  ]);
  const angle = (cornerRadius?: number) => (builder: LegBuilder) =>
    builder.lineTo(corner, cornerRadius === undefined ? {} : { cornerRadius }).lineTo(north);
  const fine = { maxSagitta: 1e-4, maxSpacing: 500, lateral95: 0.5 };
  const lengthOf = (route: Route) =>
    route.length + route.arcs.reduce((sum, arc) => sum + arc.length - (arc.to - arc.from), 0);
  const sharp = routeBuilder(fine).start(west);
  angle()(sharp);
  const whole = lengthOf(sharp.build());
  for (const [cornerRadius, own, radius] of [
    [0, 12, 12],
    [3, 12, 12],
    [3, 0, 0],
    [3, undefined, 3],
  ] as const) {
    const options = { ...fine, cornerRadius };
    const plain = routeBuilder(options).start(west);
    angle(own)(plain);
    expect(lengthOf(plain.build())).toBeCloseTo(whole - saved(radius), 3);
    const back = routeBuilder(options).start(west).outAndBack(angle(own)).build();
    expect(lengthOf(back)).toBeCloseTo(2 * (whole - saved(radius)), 3);
    const laps = routeBuilder({ ...options, cornerRadius: 0 })
      .start(west)
      .laps(3, (lap) => angle(own)(lap).lineTo(west));
    expect(laps.build().arcs.map((arc) => arc.radius)).toEqual(own ? [own, own, own] : []);
  }
  expect(() => routeBuilder().start(west).lineTo(corner, { cornerRadius: -1 }).build()).toThrow(
    /steps\[1\] lineTo cornerRadius must be/,
  );
});
