import { type Assessment, assess, combine, direct, routeBuilder, rowOf, snap } from 'datumline';
import { describe, expect, test } from 'vitest';
import { besideRoute, steadyFixes } from '../support/besideRoute';
import { invented } from './inventedRuns';

const { route, left, right } = invented;
const steady = (name: string, offset: (along: number) => number = () => 1) =>
  besideRoute(route, name, steadyFixes({ from: 0, to: 600 }, offset));
const one = (assessment: Assessment, name: string) => assessment.recordings.find((found) => found.name === name)!;
const whole = (assessment: Assessment) => rowOf(assessment, { recording: 'a' });

describe('the fixes themselves', () => {
  test('their spacing', () => {
    const fixes = steadyFixes({ from: 0, to: 600 }, () => 1).filter(({ along }) => along < 300 || along % 6 === 0);
    const { fixSpacing, fixInterval } = one(assess(route, [besideRoute(route, 'a', fixes)]), 'a');
    expect(fixSpacing!.median).toBeCloseTo(3, 3);
    expect(fixSpacing!.p95).toBeCloseTo(6, 3);
    // 100 waits of 1 s, 50 of 2 s
    expect(fixInterval).toMatchObject({ median: 1, p95: 2, kind: 'variable' });
    expect(fixInterval!.regularShare).toBeCloseTo(2 / 3, 2);
  });

  test('repeated ones, clocks that go back, jumps and missing times are counted', () => {
    const fixes = steadyFixes({ from: 0, to: 600 }, () => 1);
    // one fix twice at the same instant, one that jumps 200 m aside, one a second before the one before it
    const spoilt = [
      ...fixes.slice(0, 50),
      fixes[49],
      ...fixes.slice(50, 100),
      { ...fixes[100], right: 200 },
      { ...fixes[101], seconds: fixes[101].seconds - 3 },
      ...fixes.slice(102),
    ];
    const recording = besideRoute(route, 'a', spoilt);
    recording.time![150] = Number.NaN;
    const { data, states, fixes: count } = one(assess(route, [recording]), 'a');
    expect(data).toMatchObject({ duplicates: 1, reversedTimes: 1, jumps: 2, missingTimes: 1, issues: [] });
    expect(count).toBe(202);
    expect(Object.values(states).reduce((sum, n) => sum + n, 0)).toBe(202);
    expect(states.on).toBeGreaterThan(195);
  });
});

test('what could lie elsewhere as well: where, what share of it, and a warning', () => {
  const recording = steady('a');
  const reason = 'repeated-pass' as const;
  const message = 'The route passes here twice.';
  const placed = snap(route, recording);
  const [firstFix, lastFix] = [50, 100];
  const [from, to] = [placed.alongTrack[firstFix], placed.alongTrack[lastFix]];
  const snapped = { ...placed, ambiguous: [{ from, to, firstFix, lastFix, shift: 300, reason, message }] };
  const assessment = assess(route, [{ recording, snapped }]);
  const [span, ...others] = one(assessment, 'a').ambiguous;
  expect(others).toEqual([]);
  expect(span).toMatchObject({ reason, message });
  expect([span.from, span.to].map(Math.round)).toEqual([150, 300]);
  const row = whole(assessment);
  expect(row.ambiguousShare).toBeCloseTo(150 / 600, 2);
  expect(row.limits.map(({ reason }) => reason)).toContain('ambiguous');
  const warning = assessment.warnings.find((found) => found.reason === 'ambiguous')!;
  expect(warning).toMatchObject({ recording: 'a', message });
  expect(whole(assess(route, [recording])).ambiguousShare).toBe(0);
});

test('two of three laps and a break between them, no clock: which one is missing is said to be unsure', () => {
  const oval = routeBuilder()
    .start([2.1, 61.4])
    .lineBy({ azimuth: 90, distance: 60 })
    .laps(3, (lap) => lap.section('oval', { halfWidth: 6 }).arc({ turn: 'left', radius: 60, sweep: 360 }))
    .build();
  const each = 2 * Math.PI * 60;
  const fixes = steadyFixes({ from: 0, to: oval.length }, () => 1);
  const twoLaps = fixes
    .filter(({ along }) => along <= 90 + each || along >= 90 + 2 * each)
    .map((fix, i, all) => ({ ...fix, gap: i > 0 && fix.along - all[i - 1].along > 10 }));
  const missing = assess(oval, [besideRoute(oval, 'a', twoLaps, false)]);
  expect(one(missing, 'a').laps).toMatchObject({ planned: 3, seen: 2 });
  expect(missing.warnings).toContainEqual(
    expect.objectContaining({
      reason: 'ambiguous',
      recording: 'a',
      message: 'It shows 2 of 3 laps and was interrupted: which are missing is uncertain.',
    }),
  );
  const all = assess(oval, [besideRoute(oval, 'a', fixes, false)]);
  expect(one(all, 'a').laps).toMatchObject({ planned: 3, seen: 3 });
  expect(all.warnings.filter(({ reason }) => reason === 'ambiguous')).toEqual([]);
});

test('why a recording was left out is said with it, too', () => {
  const single = { ...steady('single'), lon: Float64Array.of(2.1), lat: Float64Array.of(61.4) };
  const { included, leftOut } = one(
    assess(route, [steady('a'), { ...single, time: Float64Array.of(0), gapBefore: Uint8Array.of(1) }]),
    'single',
  );
  expect(included).toBe(false);
  expect(leftOut).toEqual({ reason: 'too-few-fixes', message: 'It has 1 usable fix: a line needs 2.' });
});

test('inside the corridor: of the metres covered, and of all', () => {
  // 450 m covered, of which 150 m lie 8 m off where the corridor is 6 m wide to a side
  const fixes = steadyFixes({ from: 0, to: 450 }, (s) => (s < 300 ? -1 : 8));
  const row = whole(assess(route, [besideRoute(route, 'a', fixes)]));
  expect(row.insideCorridor).toBeCloseTo(300 / 450, 2);
  expect(row.insideCorridorOfAll).toBeCloseTo(300 / 600, 2);
  expect(row.medianOffset).toBeCloseTo(-1, 2);
  expect(row.missing).toBeCloseTo(150, 0);
});

test('three receivers: p-values are corrected over the three pairs of a stretch', () => {
  const wave = (offset: number, length: number) => (s: number) => offset + 2 * Math.sin(s / length);
  const { pairs } = assess(route, [steady('a', wave(3, 9)), steady('b', wave(4, 14)), steady('c', wave(6, 20))]);
  for (const stretch of ['west', 'east', null]) {
    const mine = pairs.filter(({ section }) => section === stretch);
    // by hand: all three alike is refuted by the least times 3, each pair alike by its own
    const least = 3 * Math.min(...mine.map(({ pValue }) => pValue!));
    for (const { pValue, adjustedPValue } of mine) {
      expect(adjustedPValue, `${stretch}`).toBeCloseTo(Math.min(1, Math.max(least, pValue!)), 12);
    }
  }
});

test('the design as it was, and how many more runs a difference as large as the one seen takes', () => {
  const day = (k: number, a: number, b: number) =>
    assess(route, [
      { recording: steady('a', () => a), receiver: 'A', placement: k % 2 ? left : right, run: `${k}` },
      { recording: steady('b', () => b), receiver: 'B', placement: k % 2 ? right : left, run: `${k}` },
    ]);
  // differences −1, −3, −2: mean −2, spread 1
  const summary = combine([day(1, 3, 4), day(2, 2, 5), day(3, 3, 5)]);
  expect(summary.design).toEqual([
    { receiver: 'A', placement: left, runs: 2 },
    { receiver: 'A', placement: right, runs: 1 },
    { receiver: 'B', placement: right, runs: 2 },
    { receiver: 'B', placement: left, runs: 1 },
  ]);
  const pair = summary.pairs.at(-1)!;
  expect(pair.betweenRunSd).toBeCloseTo(1, 3);
  // Nothing varies within a run: Student's t over the runs. With two degrees of freedom the power of a test is a closed form,
  // 1 − e^(−δ²/(2 + t²)) ÷ √(1 + 2/t²): four fifths at δ = 5.654 for t = 4.303, so 5.654 ÷ √3 = 3.26 m with 3 runs
  expect(Math.abs(pair.detectable! / 3.264 - 1)).toBeLessThan(0.03);
  expect(pair.moreRuns).toBe(2);
  // −2 ± 4.303 ÷ √3 holds 0
  expect(pair.interval95![1]).toBeCloseTo(0.484, 2);
  expect(pair).toMatchObject({
    verdict: 'undecided',
    signFlipPValue: 0.25,
    closer: null,
    limits: [{ reason: 'includes-zero' }],
  });
});

test('what the reference was drawn from stands with it', () => {
  const start: [number, number] = [2.1, 61.4];
  const drawn = routeBuilder()
    .start(start)
    .provenance({ source: 'an invented orthophoto', date: '2031-04', lateral95: 0.4 })
    .lineTo(direct(start, 90, 200).position)
    .build();
  const { route: judged } = assess(drawn, [
    besideRoute(
      drawn,
      'a',
      steadyFixes({ from: 0, to: 200 }, () => 1),
    ),
  ]);
  expect(judged.provenance).toHaveLength(1);
  expect(judged.provenance[0]).toMatchObject({ source: 'an invented orthophoto', date: '2031-04', lateral95: 0.4 });
  expect(judged.provenance[0].to).toBeCloseTo(200, 3);
  expect(assess(route, [steady('a')]).route.provenance).toEqual([]);
});
