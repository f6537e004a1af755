import { kinks, lineString } from '@turf/turf';
import { direct, inverse } from 'datumline/geodesy';
import {
  offsetRoute,
  pointAt,
  type Route,
  type RouteBuilder,
  type RouteOptions,
  type RouteWarningReason,
  routeBuilder,
  routeFromLine,
  sliceRoute,
} from 'datumline/route';
import { indexRoute } from 'datumline/snap';
import type { Position } from 'geojson';
import { expect, test } from 'vitest';
import { seeded, wanderingLine } from '../support/randomLine';

const start = [8.1234567, 47.7654321];
const stated: RouteOptions = { lateral95: 0.5 };
const at = (azimuth: number, distance: number) => direct(start, azimuth, distance).position;
const reasons = (route: Route) => route.warnings.map(({ reason }) => reason);

const clean = (author: (b: RouteBuilder) => unknown, options = stated) => {
  const builder = routeBuilder(options).start(start);
  author(builder);
  return builder.build();
};

test('a plain line with its uncertainty stated has no warnings', () => {
  expect(clean((b) => b.lineTo(at(10, 800)).lineTo(at(60, 900))).warnings).toEqual([]);
});

const cases: [RouteWarningReason, Route, from: number, to: number][] = [
  ['near-duplicate', clean((b) => b.lineTo(at(10, 800)).lineTo(at(10, 800.05)).lineTo(at(60, 900))), 800, 800.05],
  ['near-duplicate', clean((b) => b.lineTo(at(10, 800)).lineTo(at(10, 800)).lineTo(at(60, 900))), 800, 800],
  ['spike', clean((b) => b.lineTo(at(10, 800)).lineTo(at(10, 780)).lineTo(at(60, 900))), 800, 800],
  ['long-leg', clean((b) => b.lineTo(at(10, 5100))), 0, 5100],
  [
    'overlapping-sections',
    clean((b) => b.lineTo(at(10, 800)).section('a', { from: 100, to: 300 }).section('b', { from: 250, to: 500 })),
    250,
    300,
  ],
  ['empty-section', clean((b) => b.lineTo(at(10, 800)).section('a').section('b').lineTo(at(60, 900))), 800, 800],
  ['narrow-corridor', clean((b) => b.section('a', { halfWidth: 0.4 }).lineTo(at(10, 800))), 0, 800],
  [
    'self-crossing',
    clean((b) =>
      b
        .lineBy({ azimuth: 0, distance: 100 })
        .lineBy({ azimuth: 90, distance: 50 })
        .lineBy({ azimuth: 180, distance: 50 })
        .lineBy({ azimuth: 270, distance: 100 }),
    ),
    50,
    250,
  ],
  ['repeated-stretch', clean((b) => b.outAndBack((out) => out.lineBy({ azimuth: 30, distance: 300 }))), 0, 300],
  ['start-near-end', clean((b) => b.lineTo(at(10, 800)).lineTo(at(60, 900)).lineTo(at(0, 15))), 0, Number.NaN],
  [
    'wide-offset',
    clean((b) => b.follow([at(0, 10), at(0, 60), at(2, 60.2), at(20, 100)], { side: 'right', metres: 9 })),
    0,
    Number.NaN,
  ],
  [
    'coarse-coordinates',
    clean((b) => b.lineTo(at(10, 800)).lineTo([8.13, 47.77]).lineTo([8.14001, 47.77])),
    Number.NaN,
    Number.NaN,
  ],
  [
    'swap-suspected',
    routeFromLine(
      [
        [40.1234567, 43.7654321],
        [43.7664321, 40.1244567],
        [40.1254567, 43.7674321],
      ],
      { ...stated, maxSpacing: 1e6 },
    ),
    0,
    Number.NaN,
  ],
  ['missing-uncertainty', clean((b) => b.lineTo(at(10, 800)), {}), 0, 800],
  [
    'mixed-frames',
    clean((b) =>
      b
        .provenance({ frame: 'ETRS89' })
        .lineTo(at(10, 800))
        .provenance({ frame: 'ITRF2014', epoch: 2024.5 })
        .lineTo(at(60, 900)),
    ),
    800,
    Number.NaN,
  ],
  [
    'tight-corner',
    clean((b) => b.lineTo(at(10, 800)).lineTo(at(10.3, 800)).lineTo(at(60, 900)), { ...stated, cornerRadius: 30 }),
    Number.NaN,
    Number.NaN,
  ],
  [
    'sharp-turn',
    clean((b) => b.lineTo(at(10, 800)).lineTo(at(20, 300)), { ...stated, cornerRadius: 3 }),
    Number.NaN,
    Number.NaN,
  ],
  ['sharp-turn', clean((b) => b.lineTo(at(10, 800)).lineTo(at(10, 100)), { ...stated, cornerRadius: 3 }), 800, 800],
  ['open-lap', clean((b) => b.laps(2, (lap) => lap.lineBy({ azimuth: 10, distance: 100 }))), 0, 100],
  [
    'far-mark',
    clean((b) => b.lineTo(at(10, 800)).mark('gate', { near: direct(at(10, 400), 100, 30).position })),
    Number.NaN,
    Number.NaN,
  ],
  ['bridged-gap', clean((b) => b.lineTo(at(10, 800)).follow([at(10, 815), at(60, 900)])), 800, Number.NaN],
];

test.each(cases)('%s is warned of, with its stretch', (reason, route, from, to) => {
  const warning = route.warnings.find((candidate) => candidate.reason === reason);
  expect(reasons(route)).toContain(reason);
  // millimetres: authored lengths are met by construction, not by luck
  if (!Number.isNaN(from)) expect(Math.abs(warning!.from - from)).toBeLessThan(2e-3);
  if (!Number.isNaN(to)) expect(Math.abs(warning!.to - to)).toBeLessThan(2e-3);
  expect(warning!.message).toMatch(/^[A-Z0-9s].*[.?]$/);
});

/** Just on the good side of each: what is drawn like this is meant. */
const meant: [RouteWarningReason, Route][] = [
  ['near-duplicate', clean((b) => b.lineTo(at(10, 800)).lineTo(at(10, 800.15)).lineTo(at(60, 900)))],
  ['spike', clean((b) => b.lineTo(at(10, 800)).lineTo(at(10, 760)))],
  ['long-leg', clean((b) => b.lineTo(at(10, 4990)))],
  [
    'overlapping-sections',
    clean((b) => b.lineTo(at(10, 800)).section('a', { from: 100, to: 300 }).section('b', { from: 300, to: 500 })),
  ],
  ['empty-section', clean((b) => b.section('a').lineTo(at(10, 800)).section('b').lineTo(at(60, 900)))],
  ['narrow-corridor', clean((b) => b.section('a', { halfWidth: 0.5 }).lineTo(at(10, 800)))],
  [
    'self-crossing',
    clean((b) =>
      b
        .lineBy({ azimuth: 0, distance: 100 })
        .lineBy({ azimuth: 90, distance: 50 })
        .lineBy({ azimuth: 180, distance: 50 })
        .lineBy({ azimuth: 270, distance: 44 }),
    ),
  ],
  [
    'repeated-stretch',
    clean((b) =>
      b.outAndBack((out) => out.lineBy({ azimuth: 30, distance: 300 }), { returnBeside: { side: 'left', metres: 6 } }),
    ),
  ],
  ['start-near-end', clean((b) => b.lineTo(at(10, 800)).lineTo(at(60, 900)).lineTo(at(0, 25)))],
  ['wide-offset', clean((b) => b.follow([at(0, 10), at(0, 60), at(40, 120)], { side: 'right', metres: 9 }))],
  ['coarse-coordinates', clean((b) => b.lineTo([8.130001, 47.770002]).lineTo([8.140003, 47.770001]))],
  ['coarse-coordinates', clean((b) => b.lineTo([8.130001, 47.770002]).lineTo([8.13, 47.78]).lineTo(at(60, 900)))],
  ['swap-suspected', clean((b) => b.lineTo(at(45, 4900)).lineTo(at(60, 900)))],
  ['missing-uncertainty', clean((b) => b.provenance({ lateral95: 0 }).lineTo(at(10, 800)), {})],
  [
    'mixed-frames',
    clean((b) =>
      b
        .provenance({ frame: 'ETRS89', epoch: 2010, source: 'a' })
        .lineTo(at(10, 800))
        .provenance({ source: 'b' })
        .lineTo(at(60, 900))
        .provenance({ frame: 'ETRS89', epoch: 2010 })
        .lineTo(at(90, 900)),
    ),
  ],
  ['tight-corner', clean((b) => b.lineTo(at(10, 800)).lineTo(at(60, 900)), { ...stated, cornerRadius: 30 })],
  ['sharp-turn', clean((b) => b.lineTo(at(10, 800)).lineTo(at(60, 700)), { ...stated, cornerRadius: 3 })],
  ['open-lap', clean((b) => b.laps(2, (lap) => lap.lineTo(at(10, 100)).lineTo(at(60, 90)).lineTo(start)))],
  ['far-mark', clean((b) => b.lineTo(at(10, 800)).mark('gate', { near: direct(at(10, 400), 100, 20).position }))],
  ['bridged-gap', clean((b) => b.lineTo(at(10, 800)).follow([at(10, 809), at(60, 900)]))],
];

test.each(meant)('no %s where it is meant so', (reason, route) => {
  expect(reasons(route)).not.toContain(reason);
});

test('every warning has a case that brings it and one that does not', () => {
  const brought = new Set(cases.map(([reason]) => reason));
  expect([...new Set(meant.map(([reason]) => reason))].sort()).toEqual([...brought].sort());
});

test('the direction of a repeated stretch is told', () => {
  const laps = clean((b) => b.lineBy({ azimuth: 0, distance: 0.2 }).arc({ turn: 'left', radius: 80, sweep: 720 }));
  const repeated = laps.warnings.filter(({ reason }) => reason === 'repeated-stretch');
  expect(repeated.map(({ message }) => message)).toEqual([expect.stringContaining('in the same direction')]);
});

test('warnings of drawing stay with what is made of the line, others are found anew', () => {
  const route = clean((b) => b.lineTo(at(10, 800)).lineTo(at(10, 800.05)).lineTo(at(60, 900)), {});
  const slice = sliceRoute(route, 700, 1000);
  expect(slice.warnings).toMatchObject([
    { reason: 'missing-uncertainty', from: 0, to: 300 },
    { reason: 'near-duplicate' },
  ]);
  expect(Math.abs(slice.warnings[1].from - 100)).toBeLessThan(1e-3);
  expect(reasons(offsetRoute(route, { side: 'left', metres: 2 }))).toEqual(['missing-uncertainty', 'near-duplicate']);
});

test('self-crossings are those that Turf kinks finds, and no others', () => {
  let met = 0;
  for (let seed = 1; seed <= 20; seed++) {
    const positions = wanderingLine(seeded(seed), { start, count: 12, step: 300, turn: 150 });
    const route = routeFromLine(positions, stated);
    // Turf takes straight lines in degrees: over legs of 300 m the same to 1 mm
    const found = kinks(lineString(positions)).features.map(({ geometry }) => geometry.coordinates);
    const crossings = route.warnings.filter(({ reason }) => reason === 'self-crossing');
    met += crossings.length;
    // legs that cross at less than 30° are looked at as stretches run again
    const steep = found.filter((position) => crossings.some(({ from }) => apartFrom(route, from, position) < 0.05));
    expect(steep.length, `seed ${seed}`).toBe(crossings.length);
    for (const position of found) {
      const [first, second] = indexRoute(route).candidates(position, { maxDistance: 0.05 });
      const turn = Math.abs(((first.azimuth - (second ?? first).azimuth + 540) % 360) - 180);
      const shallow = Math.min(turn, 180 - turn) < 30;
      const isFound = crossings.some(({ from }) => apartFrom(route, from, position) < 0.05);
      expect(isFound || shallow, `seed ${seed} at ${first.alongTrack}`).toBe(true);
    }
  }
  expect(met).toBeGreaterThan(20);
});

const apartFrom = (route: Route, at: number, position: Position) =>
  inverse(pointAt(route, at).position, position).distance;
