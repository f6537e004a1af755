import { type Assessment, assess, direct, routeBuilder, rowOf } from 'datumline';
import { describe, expect, test } from 'vitest';
import { besideRoute, steadyFixes } from '../support/besideRoute';
import { simulateRun } from '../support/simulateRun';

const start: [number, number] = [2.1, 61.4];
const corner = direct(start, 90, 300).position as [number, number];
/** 300 m eastwards, where right is south, then 300 m northwards, where right is east. */
const build = (lateral95?: number) =>
  routeBuilder(lateral95 === undefined ? {} : { lateral95 })
    .start(start)
    .section('quay', { halfWidth: 6 })
    .lineTo(corner)
    .section('lane', { halfWidth: 6 })
    .lineTo(direct(corner, 0, 300).position)
    .build();
const beside = (route: ReturnType<typeof build>, name: string, right: (along: number) => number) =>
  besideRoute(route, name, steadyFixes({ from: 0, to: 600 }, right));
const pairOf = (assessment: Assessment, section: string | null) =>
  assessment.pairs.find((pair) => pair.section === section)!;

describe('doubt of the reference', () => {
  // a keeps 1 m right all along, b 1.3 m left on the quay and 1.6 m left on the lane: −0.3 and −0.6 m nearer
  const route = build(1);
  const assessment = assess(route, [beside(route, 'a', () => 1), beside(route, 'b', (s) => (s < 300 ? -1.3 : -1.6))]);

  /** Mean distance of a less that of b, the reference moved so far to the right on the quay and on the lane. */
  const byHand = (quay: number, lane: number) => [
    Math.abs(1 - quay) - Math.abs(-1.3 - quay),
    Math.abs(1 - lane) - Math.abs(-1.6 - lane),
  ];
  const half = Math.SQRT1_2;
  const moves: Record<string, [quay: number, lane: number]> = {
    north: [-1, 0],
    'north-east': [-half, half],
    east: [0, 1],
    'south-east': [half, half],
    south: [1, 0],
    'south-west': [half, -half],
    west: [0, -1],
    'north-west': [-half, -half],
    left: [-1, -1],
    right: [1, 1],
  };

  test('each of ten moves, worked by hand: who changes places, whose difference changes its sign', () => {
    expect(assessment.referenceDoubt!.trials.map(({ direction }) => direction)).toEqual(Object.keys(moves));
    for (const { direction, orderChanges, signChanges } of assessment.referenceDoubt!.trials) {
      const [quay, lane] = byHand(...moves[direction]);
      const changed = [quay > 0, lane > 0, (quay + lane) / 2 > 0];
      expect(signChanges, direction).toBe(changed.filter(Boolean).length);
      expect(orderChanges, direction).toBe(changed[2] ? 1 : 0);
    }
    expect(assessment.referenceDoubt!.orderChanges).toBe(1);
    expect(assessment.warnings.map(({ reason }) => reason)).toContain('order-depends-on-reference');
  });

  test('the floor is the most that any of the moves changes', () => {
    for (const [section, part] of [
      ['quay', 0],
      ['lane', 1],
    ] as const) {
      const present = byHand(0, 0)[part];
      const most = Math.max(...Object.values(moves).map((move) => Math.abs(byHand(...move)[part] - present)));
      expect(pairOf(assessment, section).floor, section).toBeCloseTo(Math.max(0.5, most), 2);
    }
    const [quay, lane] = byHand(0, 0);
    const most = Math.max(
      ...Object.values(moves).map((move) => {
        const [a, b] = byHand(...move);
        return Math.abs((a + b - quay - lane) / 2);
      }),
    );
    expect(pairOf(assessment, null).floor).toBeCloseTo(most, 2);
    // without scatter the difference of 0.45 m is sure, and less than a metre
    expect(pairOf(assessment, null).verdict).toBe('equivalent');
  });

  test('a move over the map can change more than one to the side: then that is the floor', () => {
    // a right on the quay and left on the lane, b the other way round: moved to one side the two stretches cancel
    const crossed = assess(route, [
      beside(route, 'a', (s) => (s < 300 ? 2 : -2)),
      beside(route, 'b', (s) => (s < 300 ? -2 : 2)),
    ]);
    // north-east moves the quay's line 0.71 m to its left and the lane's as much to its right: 2 · 0.71 m for each
    expect(pairOf(crossed, null).floor).toBeGreaterThan(1.35);
    expect(pairOf(crossed, null).floor).toBeCloseTo(2 * half, 1);
  });

  test('the rows say what the reference can resolve', () => {
    const row = rowOf(assessment, { recording: 'a', section: 'quay' });
    expect(row.resolution).toBeCloseTo(1, 2);
    expect(row.limits).toContainEqual({
      reason: 'coarse-reference',
      message: 'The reference is known to 1.0 m: it cannot resolve offsets as small as these.',
    });
    expect(row.biasSide).toBeNull();
    expect(row.verdictLimit).toBe(pairOf(assessment, 'quay').floor);
    const far = assess(route, [beside(route, 'a', () => 2.5)]).rows[0];
    expect(far.resolution).toBeCloseTo(2.5, 2);
    expect(far.biasSide).toBe('right');
    expect(far.limits.map(({ reason }) => reason)).not.toContain('coarse-reference');
  });
});

describe('a stretch taken out is out of every figure', () => {
  const route = build();
  const exclude = [{ from: 100, to: 250, reason: 'the quay was dug up' }];

  test('what happened in it changes nothing but what is said of the recording as a whole', () => {
    const calm = beside(route, 'a', () => 1);
    // slower, further off and back again in the stretch, and 45 s late ever after
    const fixes = steadyFixes({ from: 0, to: 600 }, (s) => (s > 130 && s < 220 ? 5 + 3 * Math.sin(s) : 1)).map(
      (fix) => ({
        ...fix,
        seconds: fix.seconds + Math.min(45, Math.max(0, fix.along - 130) / 2),
      }),
    );
    const other = beside(route, 'b', () => 2);
    const [quiet, wild] = [calm, besideRoute(route, 'a', fixes)].map((recording) =>
      assess(route, [recording, other], { exclude }),
    );
    const without = (assessment: Assessment) => ({
      rows: assessment.rows.map((row) => ({ ...row, limits: [], gaps: 0 })),
      excursions: assessment.excursions,
      totals: assessment.totals,
      pairs: assessment.pairs.map(({ apart, ...pair }) => pair),
      order: assessment.order,
      lapRepeatability: assessment.lapRepeatability,
    });
    const [a, b] = [without(quiet), without(wild)];
    expect(b.rows.length).toBe(6);
    for (const [i, row] of a.rows.entries()) {
      for (const [key, value] of Object.entries(row)) {
        const found = b.rows[i][key as keyof typeof row];
        if (typeof value === 'number') expect(found as number, `${row.section} ${key}`).toBeCloseTo(value, 1);
        else if (value === null || typeof value === 'string') expect(found, `${row.section} ${key}`).toBe(value);
      }
    }
    expect(b.excursions).toEqual(a.excursions);
    for (const [i, { difference, verdict, commonShare }] of a.pairs.entries()) {
      expect(b.pairs[i].difference).toBeCloseTo(difference!, 2);
      expect([b.pairs[i].verdict, b.pairs[i].commonShare]).toEqual([verdict, commonShare]);
    }
    // 300 m of quay less 150 m at 3 m a second
    expect(a.rows[0].seconds).toBeCloseTo(50, 1);
    expect(a.rows[0].referenceLength).toBeCloseTo(150, 6);
  });

  test('a detour really travelled by all: off the route without, of no account with the stretch left out', () => {
    const runs = simulateRun(route, {
      seed: 5,
      detours: [{ from: 110, to: 240, metres: 120 }],
      receivers: [
        { name: 'a', sigma: 1 },
        { name: 'b', sigma: 1 },
      ],
    }).map(({ recording }) => recording);
    const plain = assess(route, runs);
    expect(plain.warnings.map(({ reason }) => reason)).toContain('shared-detour');
    expect(plain.rows.every(({ section, offRoute }) => section === 'lane' || offRoute > 60)).toBe(true);
    const out = assess(route, runs, { exclude: [{ from: 90, to: 260, reason: 'detour round the fish market' }] });
    expect(out.warnings.map(({ reason }) => reason)).not.toContain('shared-detour');
    expect(out.warnings.find(({ reason }) => reason === 'excluded')).toMatchObject({ from: 90, to: 260 });
    for (const row of out.rows) {
      expect(row.offRoute, row.section ?? 'whole').toBe(0);
      expect(row.coverage).toBeGreaterThan(0.97);
      expect(Math.abs(row.lengthError!)).toBeLessThan(30);
    }
    expect(plain.rows[0].lengthError).toBeGreaterThan(60);
    expect(out.method.sentences.join(' ')).toContain('90 m to 260 m (detour round the fish market)');
  });
});

describe('the method', () => {
  const route = build(1);
  const a = beside(route, 'a', () => 1);
  const line = [direct(start, 0, 6).position, direct(start, 60, 500).position];

  test('everything that can change a figure changes the hash', () => {
    const hashes = [
      assess(route, [a]),
      assess(build(2), [a]),
      assess(build(), [a]),
      assess(route, [{ ...a, gapBefore: a.gapBefore.map((gap, i) => (i === 60 ? 1 : gap)) }]),
      assess(route, [{ ...a, time: a.time!.map((time) => time + 1) }]),
      assess(route, [{ recording: a, receiver: 'A' }]),
      assess(route, [{ recording: a, placement: 'left wrist' }]),
      assess(route, [{ recording: a, run: '1' }]),
      assess(route, [a], { decoy: line }),
      assess(route, [a], { centreline: line }),
      assess(route, [a], { leverArm: 0.4 }),
      assess(route, [a], { equivalence: 2 }),
      assess(route, [a], { defaultHalfWidth: 20 }),
      assess(route, [a], { exclude: [{ from: 1, to: 2, reason: 'x' }] }),
      assess(route, [a, { ...a, name: 'b' }]),
    ].map(({ method }) => method.hash);
    expect(new Set(hashes).size).toBe(hashes.length);
    expect(assess(build(1), [{ ...a, lon: a.lon.slice() }]).method.hash).toBe(hashes[0]);
  });

  test('it states every limit that a figure rests on, and each input with its hash', () => {
    const { method } = assess(route, [a], { decoy: line, centreline: line, leverArm: 0.7, equivalence: 1.5 });
    expect(method.inputs.map(({ name }) => name)).toEqual(['route', 'a', 'decoy', 'centreline']);
    const said = method.sentences.join(' ');
    for (const words of [
      'Each metre of the route counts once',
      'slow waves of the offsets',
      'fewer than 3 effective samples',
      'closed test over the ways to sort the receivers',
      'two one-sided tests at 5 %',
      'Strayed: the whole interval of the mean offset',
      '0.7 m',
      '1.5 m',
      '10 m is an excursion',
      'less than 5 m between them',
      'turns 30° or more within 30 m',
      'from 25 m and 2 standard deviations on for longer than its errors last',
      '20 s or more of less than 0.25 m a second',
      'the first 60 s in a row',
      'Laps are seen as often as 80 % of the lap were passed.',
      'Map attraction: the slope',
      'Side of the street',
      'five usual intervals',
    ]) {
      expect(said).toContain(words);
    }
    expect(method.version).toMatch(/^\d+\.\d+\.\d+/);
    expect(method.cautions.join(' ')).toContain('licensed practice');
  });
});
