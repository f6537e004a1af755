import { type Assessment, assess, direct, type Route, routeBuilder, routeFromLine, rowOf } from 'datumline';
import { describe, expect, test } from 'vitest';
import { besideRoute, steadyFixes } from '../support/besideRoute';
import { simulateRun } from '../support/simulateRun';

const start: [number, number] = [2.1, 61.4];
const bearing = (azimuth: number, metres: number, from = start) =>
  direct(from, azimuth, metres).position as [number, number];

const street = routeBuilder({ lateral95: 0.5 })
  .start(start)
  .section('west', { halfWidth: 5 })
  .lineTo(bearing(90, 300))
  .section('east', { halfWidth: 5 })
  .lineTo(bearing(90, 900))
  .build();
const whole = (assessment: Assessment, recording: string) => rowOf(assessment, { recording });
const one = (assessment: Assessment, name: string) =>
  assessment.recordings.find((recording) => recording.name === name)!;

describe('weighting', () => {
  test('60 s at a spot 12 m off in 300 m at 4 m: 7.0 m by the second, 4.0 m by the metre', () => {
    const straight = routeFromLine([start, bearing(90, 300)]);
    const fixes = [
      ...steadyFixes({ from: 0, to: 150 }, () => 4),
      // 60 s of standing, there and back in half a second
      ...Array.from({ length: 60 }, (_, i) => ({ along: 150, right: 12, seconds: 50.5 + i })),
      ...steadyFixes({ from: 150, to: 300 }, () => 4, 110),
    ];
    const row = whole(assess(straight, [besideRoute(straight, 'a', fixes)]), 'a');
    expect(row.timeWeighted!.meanAbsolute).toBeCloseTo(7, 1);
    expect(row.meanAbsolute).toBeCloseTo(4, 1);
    expect(Math.abs(row.meanAbsolute! - 4)).toBeLessThan(0.05);
  });

  test('an untimed recording has the figures by the metre and none by the second', () => {
    const row = whole(
      assess(street, [
        besideRoute(
          street,
          'a',
          steadyFixes({ from: 0, to: 900 }, () => 2),
          false,
        ),
      ]),
      'a',
    );
    expect(row.meanAbsolute).toBeCloseTo(2, 3);
    expect([row.timeWeighted, row.seconds, row.pace, row.fixInterval]).toEqual([null, null, null, null]);
  });
});

describe('gaps', () => {
  const fixes = steadyFixes({ from: 0, to: 900 }, () => 2);
  const without = (from: number, to: number) => fixes.filter(({ along }) => along <= from || along >= to);

  test('a silence is a gap: no offset, no coverage, its cause named', () => {
    const assessment = assess(street, [besideRoute(street, 'a', without(402, 600))]);
    const { gaps } = one(assessment, 'a');
    expect(gaps).toHaveLength(1);
    expect(gaps[0]).toMatchObject({ reason: 'silence', seconds: 66 });
    expect(gaps[0].from).toBeCloseTo(402, 2);
    expect(gaps[0].to).toBeCloseTo(600, 2);
    const row = whole(assessment, 'a');
    expect(row.coverage).toBeCloseTo(702 / 900, 2);
    expect(row.gaps).toBe(1);
    // the line recorded goes straight over it
    expect(row.recordedLength).toBeCloseTo(900, 0);
  });

  test('a break of the file is one too, and its metres are not bridged', () => {
    const broken = without(402, 420).map((fix) => (fix.along === 420 ? { ...fix, gap: true } : fix));
    const assessment = assess(street, [besideRoute(street, 'a', broken)]);
    expect(one(assessment, 'a').gaps.map(({ reason }) => reason)).toEqual(['break']);
    expect(whole(assessment, 'a').remainder).toBeCloseTo(-18, 0);
  });

  test('a break in which hardly anything moved is a pause', () => {
    const paused = fixes.map((fix) => ({
      ...fix,
      seconds: fix.seconds + (fix.along > 400 ? 90 : 0),
      gap: fix.along === 402,
    }));
    expect(one(assess(street, [besideRoute(street, 'a', paused)]), 'a').gaps.map(({ reason }) => reason)).toEqual([
      'pause',
    ]);
  });

  test('sparse fixes at a steady interval are no gaps', () => {
    const sparse = fixes.filter((_, i) => i % 10 === 0);
    const assessment = assess(street, [besideRoute(street, 'a', sparse)]);
    expect(one(assessment, 'a').gaps).toEqual([]);
    expect(whole(assessment, 'a').coverage).toBeGreaterThan(0.99);
    expect(one(assessment, 'a').fixInterval).toMatchObject({ median: 10, kind: 'fixed' });
  });
});

test('late start and early end show in where it joined and left', () => {
  const assessment = assess(street, [
    besideRoute(
      street,
      'a',
      steadyFixes({ from: 90, to: 810 }, () => 1),
    ),
  ]);
  const a = one(assessment, 'a');
  expect(a.joined).toBeCloseTo(90, 1);
  expect(a.left).toBeCloseTo(810, 1);
  expect(whole(assessment, 'a').coverage).toBeCloseTo(0.8, 2);
});

test('settled where the offset first stayed within the corridor for a minute', () => {
  const fixes = steadyFixes({ from: 0, to: 900 }, (along) => (along < 120 ? 9 : 2));
  const settled = one(assess(street, [besideRoute(street, 'a', fixes)]), 'a').settled!;
  expect(settled.alongTrack).toBeCloseTo(120, 1);
  expect(settled.seconds).toBe(40);
});

test('standing is found, with how far the fixes wander meanwhile', () => {
  const [{ recording }] = simulateRun(street, {
    seed: 4,
    stops: [{ at: 450, seconds: 120 }],
    receivers: [{ name: 'a', sigma: 2 }],
  });
  const { stops } = one(assess(street, [recording]), 'a');
  expect(stops).toHaveLength(1);
  expect(Math.abs(stops[0].alongTrack - 450)).toBeLessThan(8);
  expect(Math.abs(stops[0].seconds - 120)).toBeLessThan(25);
  expect(stops[0].r95).toBeGreaterThan(stops[0].r50);
  expect(stops[0].length).toBeGreaterThan(5);
  const [{ recording: steady }] = simulateRun(street, { seed: 4, receivers: [{ name: 'a', sigma: 2 }] });
  expect(one(assess(street, [steady]), 'a').stops).toEqual([]);
});

describe('excursions', () => {
  test('runs out of the corridor with less than 5 m between them are one, the worst first', () => {
    const out = (along: number) => {
      if (along >= 120 && along <= 150) return -8;
      if (along > 150 && along < 156) return -5 + 0.01;
      if (along >= 156 && along <= 180) return -7;
      if (along >= 600 && along <= 660) return 11;
      return 1;
    };
    const { excursions } = assess(street, [besideRoute(street, 'a', steadyFixes({ from: 0, to: 900 }, out))]);
    expect(excursions.map(({ number, side, section }) => [number, side, section])).toEqual([
      [1, 'right', 'east'],
      [2, 'left', 'west'],
    ]);
    const [first, second] = excursions;
    expect(first.peak).toBeCloseTo(11, 2);
    expect(first.metres).toBeGreaterThan(60);
    expect(first.metres).toBeLessThan(66);
    expect(first.seconds).toBeCloseTo(first.metres / 3, 0);
    expect(first.threshold).toBe(5);
    expect(second.from).toBeCloseTo(119, -0.5);
    expect(second.to).toBeCloseTo(181, -0.5);
  });
});

describe('corners', () => {
  const corner = bearing(90, 150);
  const bend = routeFromLine([start, corner, bearing(180, 150, corner)]);
  const passage = (right: (along: number) => number) =>
    assess(bend, [besideRoute(bend, 'a', steadyFixes({ from: 0, to: 300 }, right))]).corners;

  test('a right turn of 90°: right of it is inside, left outside', () => {
    const near = (along: number) => Math.max(0, 1 - Math.abs(along - 150) / 10);
    const [cut] = passage((along) => 4 * near(along));
    expect(cut).toMatchObject({ number: 1, direction: 'right', section: null });
    expect(cut.turn).toBeCloseTo(90, 0);
    expect(cut.alongTrack).toBeCloseTo(150, -0.5);
    expect(cut.passages[0].outcome).toBe('cut inside');
    expect(cut.passages[0].inside).toBeLessThan(-1.5);
    const [over] = passage((along) => -4 * near(along));
    expect(over.passages[0].outcome).toBe('overshot outside');
    expect(over.passages[0].outside).toBeGreaterThan(2);
    expect(passage(() => 0.2)[0].passages[0].outcome).toBe('kept');
  });

  test('a circle of 60 m radius is no corner, a bend of 10 m radius is one', () => {
    const arc = (radius: number) =>
      routeBuilder()
        .start(start)
        .lineTo(bearing(90, 60))
        .arc({ turn: 'left', radius, sweep: 90 })
        .lineBy({ azimuth: 0, distance: 60 })
        .build();
    const turns = (radius: number) => {
      const route = arc(radius);
      return assess(route, [
        besideRoute(
          route,
          'a',
          steadyFixes({ from: 0, to: route.length }, () => 0),
        ),
      ]).corners;
    };
    expect(turns(60)).toEqual([]);
    expect(turns(10)).toHaveLength(1);
    expect(turns(10)[0].turn).toBeCloseTo(90, 0);
    expect(turns(10)[0].direction).toBe('left');
  });

  /** An ellipse drawn with so many clicks, at even steps of the angle about its middle. */
  const ellipse = (long: number, wide: number, clicks: number) =>
    routeFromLine(
      Array.from({ length: clicks + 1 }, (_, i) => {
        const [x, y] = [long * Math.cos((2 * Math.PI * i) / clicks), wide * Math.sin((2 * Math.PI * i) / clicks)];
        return bearing((Math.atan2(x, y) * 180) / Math.PI, Math.hypot(x, y));
      }),
    );
  const cornersOf = (route: Route) =>
    assess(route, [
      besideRoute(
        route,
        'a',
        steadyFixes({ from: 0, to: route.length }, () => 0),
      ),
    ]).corners;

  // an ellipse with half axes a and b is bent by a ÷ b² where it is bent most: 30 m there turn 30 a ÷ b² radians
  test.each([
    ['48 clicks, 68° in 30 m at the two ends', 84, 46, 48, 2],
    ['90 clicks', 84, 46, 90, 2],
    ['24 clicks', 84, 46, 24, 2],
    ['just under the limit at the two ends, 29.6°', 60, 59, 48, 0],
    ['a circle of 60 m, 48 clicks: 28.6°', 60, 60, 48, 0],
    ['a circle of 60 m, 36 clicks', 60, 60, 36, 0],
  ])('a bend drawn with few points is one: %s', (_, long, wide, clicks, wanted) => {
    const corners = cornersOf(ellipse(long, wide, clicks));
    // the first of them may be cut in two by the start
    expect(corners.filter(({ alongTrack }) => alongTrack > 40).length).toBe(wanted);
    for (const { turn, from, to } of corners) {
      expect(turn).toBeGreaterThan(30 - 1e-6);
      expect(to).toBeGreaterThan(from);
    }
  });

  test('no turn is under 30°, wherever its points lie', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const clicks = 24 + seed;
      for (const { turn } of cornersOf(ellipse(50 + 3 * seed, 40 + 2 * seed, clicks))) {
        expect(turn).toBeGreaterThan(30 - 1e-6);
      }
    }
  });

  test('corners 40 m apart are two, each by its own turn', () => {
    for (const [second, turns] of [
      [180, [90, 90]],
      [0, [90, 90]],
      [135, [90, 45]],
    ] as const) {
      const [a, b] = [bearing(0, 150), bearing(90, 40, bearing(0, 150))];
      const corners = cornersOf(routeFromLine([start, a, b, bearing(second, 150, b)]));
      expect(corners.map(({ turn }) => Math.round(turn))).toEqual(turns);
      expect(corners[0].alongTrack).toBeCloseTo(150, -0.5);
      expect(corners[1].alongTrack).toBeCloseTo(190, -0.5);
    }
  });
});

describe('beside the route', () => {
  const centreline = [bearing(0, 6), bearing(0, 6, bearing(90, 900))];

  test('a recording across the centreline is on the wrong side, one near it undecided', () => {
    const right = (along: number) => (along < 300 ? 1 : along < 600 ? -9 : -6.2);
    const row = whole(
      assess(street, [besideRoute(street, 'a', steadyFixes({ from: 0, to: 900 }, right))], { centreline }),
      'a',
    );
    expect(row.correctSide).toBeCloseTo(1 / 3, 1);
    expect(row.undecidedSide).toBeCloseTo(1 / 3, 1);
    expect(
      whole(assess(street, [besideRoute(street, 'a', steadyFixes({ from: 0, to: 900 }, right))]), 'a').correctSide,
    ).toBeNull();
  });

  // the decoy weaves: 6 m right of the route, then left of it, three times over
  const weave = (along: number) => 6 * Math.sin((2 * Math.PI * along) / 300);
  const decoy = steadyFixes({ from: 0, to: 900 }, weave);
  const lure = besideRoute(street, 'decoy', decoy);

  test.each([
    ['lies on it', 1, 'attracted'],
    ['follows it by two thirds', 2 / 3, 'attracted'],
    ['ignores it', 0, 'not attracted'],
  ] as const)('a recording that %s has that index', (_, pull, verdict) => {
    const fixes = steadyFixes({ from: 0, to: 900 }, (along) => 1 + pull * weave(along) + 0.5 * Math.sin(along / 7));
    const { mapAttraction } = whole(assess(street, [besideRoute(street, 'a', fixes)], { decoy: lure }), 'a');
    expect(mapAttraction!.verdict).toBe(verdict);
    expect(mapAttraction!.index).toBeCloseTo(pull, 1);
  });

  test('a decoy at a steady distance cannot tell: a bias would look the same', () => {
    const fixes = steadyFixes({ from: 0, to: 900 }, () => -4);
    const { mapAttraction } = whole(assess(street, [besideRoute(street, 'a', fixes)], { decoy: centreline }), 'a');
    expect(mapAttraction).toMatchObject({ index: null, interval95: null, verdict: 'cannot tell' });
    expect(mapAttraction!.nearerShare).toBeCloseTo(1, 6);
  });
});

describe('laps', () => {
  const oval = routeBuilder()
    .start(start)
    .lineTo(bearing(90, 30))
    .laps(3, (lap) => lap.section('oval', { halfWidth: 4 }).arc({ turn: 'left', radius: 60, sweep: 360 }))
    .build();

  test('laps planned and seen, and how well they repeat', () => {
    const [{ recording }] = simulateRun(oval, { seed: 8, receivers: [{ name: 'a', sigma: 1.5 }] });
    const assessment = assess(oval, [recording]);
    expect(one(assessment, 'a').laps).toMatchObject({ planned: 3, seen: 3 });
    expect(assessment.lapRepeatability).toHaveLength(1);
    expect(assessment.lapRepeatability[0]).toMatchObject({ recording: 'a', laps: 3, section: 'oval' });
    expect(assessment.lapRepeatability[0].sd).toBeGreaterThan(0.5);
    expect(assessment.lapRepeatability[0].sd).toBeLessThan(3);
  });
});
