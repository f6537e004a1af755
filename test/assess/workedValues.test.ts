import { type Assessment, assess, direct, type Route, routeBuilder, routeFromLine, rowOf, snap } from 'datumline';
import { describe, expect, test } from 'vitest';
import { besideRoute, type FixBeside, steadyFixes } from '../support/besideRoute';
import { simulateRun } from '../support/simulateRun';
import { recordingOf } from './recordingOf';

// Every figure here has a closed form, worked out beside it.

const start: [number, number] = [2.1, 61.4];
const straight = (metres: number, azimuth = 90): Route =>
  routeBuilder()
    .start(start)
    .lineTo(direct(start, azimuth, metres).position)
    .build();
const street = straight(600);
const beside = (route: Route, right: (along: number) => number, name = 'a') =>
  besideRoute(route, name, steadyFixes({ from: 0, to: route.length }, right));
const whole = (assessment: Assessment, name = 'a') => rowOf(assessment, { recording: name });
const rowBeside = (right: (along: number) => number) => whole(assess(street, [beside(street, right)]));

/** A circle of 60 m radius run anticlockwise, so that right is outside, and what runs so far outside of it at each angle. */
const centre: [number, number] = [7, 44];
const ring = (outside: (radians: number) => number, count = 1440): [number, number][] =>
  Array.from({ length: count + 1 }, (_, i) => {
    const turned = (2 * Math.PI * i) / count;
    return direct(centre, 90 - (360 * i) / count, 60 + outside(turned)).position as [number, number];
  });
const lap = routeFromLine(ring(() => 0));
const ringRow = (outside: (radians: number) => number, count?: number) =>
  whole(assess(lap, [recordingOf(ring(outside, count), { name: 'a' })]));

describe('one recording on one stretch', () => {
  test('an offset that grows evenly from 0 to 10 m: mean, percentiles, spread', () => {
    const row = rowBeside((s) => s / 60);
    expect(row.meanAbsolute).toBeCloseTo(5, 2);
    expect(row.median).toBeCloseTo(5, 1);
    expect(row.p68).toBeCloseTo(6.8, 1);
    expect(row.p90).toBeCloseTo(9, 1);
    expect(row.p95).toBeCloseTo(9.5, 1);
    expect(row.max).toBeCloseTo(10, 1);
    expect(row.rms).toBeCloseTo(10 / Math.sqrt(3), 2);
    expect(row.bias).toBeCloseTo(5, 2);
    expect(row.sd).toBeCloseTo(10 / Math.sqrt(12), 2);
    // half of the values lie within 2.5 m of the median
    expect(row.robustSd).toBeCloseTo(1.4826 * 2.5, 1);
    expect(row.area).toBeCloseTo(3000, -1);
    expect(row.signedArea).toBeCloseTo(3000, -1);
    // mean square = bias² + variance, but for the n − 1 of the spread
    expect(row.rms! ** 2).toBeCloseTo(row.bias! ** 2 + (row.sd! ** 2 * 599) / 600, 6);
  });

  test('sides cancel in the signed area and the bias, not in the area and the mean', () => {
    const row = rowBeside((s) => (s <= 300 ? 4 : -4));
    expect(row.area).toBeCloseTo(2400, -1.5);
    expect(Math.abs(row.signedArea!)).toBeLessThan(15);
    expect(Math.abs(row.bias!)).toBeLessThan(0.03);
    expect(row.biasInWords).toBe('on the line');
    expect(row.biasSide).toBeNull();
  });

  test('a wave of 60 m: sign changes twice a wave, and over 10 m only what a moving mean leaves', () => {
    const [wave, height] = [60, 4];
    const row = rowBeside((s) => height * Math.sin((2 * Math.PI * s) / wave));
    expect(row.roughness!.crossings).toBeGreaterThan(2000 / wave - 3.5);
    expect(row.roughness!.crossings).toBeLessThan(2000 / wave + 0.1);
    // the mean of the 11 bins whose middles lie within 5 m leaves sin(11 x)/(11 sin x) of a wave, x = π ÷ its length
    const x = Math.PI / wave;
    const left = (height / Math.SQRT2) * (1 - Math.sin(11 * x) / (11 * Math.sin(x)));
    expect(Math.abs(row.roughness!.sd10 / left - 1)).toBeLessThan(0.03);
  });

  test('3 m a second: pace and time', () => {
    const row = rowBeside(() => 2);
    expect(row.pace!.p5).toBeCloseTo(3, 2);
    expect(row.pace!.p95).toBeCloseTo(3, 2);
    expect(row.seconds).toBeCloseTo(200, 6);
    expect(row.fixInterval).toBe(1);
    expect(row.insideCorridor).toBeNull();
  });
});

describe('distance and time at the finish', () => {
  /** 200 fixes at 3 m/s, the last so far short of the finish. */
  const short = (metres: number) => {
    const along = (i: number) => ((600 - metres) * i) / 199;
    const fixes = Array.from({ length: 200 }, (_, i) => ({ along: along(i), right: 1, seconds: along(i) / 3 }));
    return assess(street, [besideRoute(street, 'a', fixes)]).distances.find(({ mark }) => mark === null)!;
  };

  test.each([1.9, 2.1, 3, 4])('a last fix %s m short, a step being 3 m: passed', (metres) => {
    const { recorded, error, seconds } = short(metres);
    expect(recorded).toBeCloseTo(600 - metres, 1);
    expect(error).toBeCloseTo(-metres, 1);
    expect(seconds).toBeCloseTo((600 - metres) / 3, 1);
  });

  test('a last fix 10 m short: not covered', () => {
    expect(short(10)).toMatchObject({ recorded: null, error: null, seconds: null });
  });
});

describe('why totals mislead', () => {
  test('a zigzag of ± 1 m every 3 m is all wiggle: √(3² + 2²) − 3 a step', () => {
    const row = rowBeside((s) => (Math.round(s / 3) % 2 === 0 ? 1 : -1));
    const wiggle = 200 * (Math.hypot(3, 2) - 3);
    expect(row.wiggleTerm).toBeCloseTo(wiggle, 1);
    expect(row.lengthError).toBeCloseTo(wiggle, 1);
    expect(Math.abs(row.turnTerm!)).toBeLessThan(1e-3);
    expect(Math.abs(row.remainder!)).toBeLessThan(0.05);
  });

  test('going 30 m back and forth again is 60 m of wiggle', () => {
    const there = steadyFixes({ from: 0, to: 300 }, () => 1);
    const back = steadyFixes({ from: 3, to: 30 }, () => 1, 101).map((fix) => ({ ...fix, along: 300 - fix.along }));
    const on = steadyFixes({ from: 273, to: 600 }, () => 1, 111);
    const fixes = [...there, ...back, ...on];
    const recording = besideRoute(street, 'a', fixes);
    // placed where it was: what is tested is what becomes of it
    const snapped = {
      ...snap(street, recording),
      alongTrack: Float64Array.from(fixes, ({ along }) => along),
      crossTrack: Float64Array.from(fixes, ({ right }) => right),
    };
    const assessment = assess(street, [{ recording, snapped }]);
    expect(whole(assessment).wiggleTerm).toBeCloseTo(60, 2);
    expect(whole(assessment).lengthError).toBeCloseTo(60, 2);
    expect(assessment.recordings[0].backwards!.metres).toBeCloseTo(30, 6);
    expect(assessment.recordings[0].backwards!.share).toBeCloseTo(10 / 220, 6);
  });

  test('2 m outside of a circle of 60 m with a ripple of 1 m, 20 a lap: 12.6 m of turn, 10.5 m of wiggle', () => {
    const row = ringRow((radians) => 2 + Math.sin(20 * radians));
    // ∫ n dθ = 2π · 2, and ½ ∫ n′² ds = ½ (1 · 20/60)² ½ · 2π60 to first order
    expect(row.turnTerm).toBeCloseTo(2 * Math.PI * 2, 1);
    expect(Math.abs(row.wiggleTerm! / 10.47 - 1)).toBeLessThan(0.06);
    // judge: the length of r = 62 + sin 20θ in polar coordinates, by the midpoint rule
    let length = 0;
    for (let i = 0; i < 100_000; i++) {
      const radians = (2 * Math.PI * (i + 0.5)) / 100_000;
      length += (Math.hypot(62 + Math.sin(20 * radians), 20 * Math.cos(20 * radians)) * 2 * Math.PI) / 100_000;
    }
    expect(length - 2 * Math.PI * 60).toBeCloseTo(22.5, 1);
    expect(row.lengthError).toBeCloseTo(length - 2 * Math.PI * 60, 1);
    expect(row.wiggleTerm).toBeCloseTo(length - 2 * Math.PI * 62, 1);
    expect(Math.abs(row.remainder!)).toBeLessThan(0.3);
  });

  describe('sharp corners, right, right, left, right, right: 270° to the right in all', () => {
    const corners: [number, number][] = [start];
    for (const [azimuth, metres] of [
      [90, 200],
      [180, 150],
      [270, 100],
      [180, 100],
      [270, 100],
      [0, 250],
    ]) {
      corners.push(direct(corners.at(-1)!, azimuth, metres).position as [number, number]);
    }
    const block = routeFromLine(corners);
    /** Turn terms of some runs of a receiver that lies so far right, with errors of σ metres. */
    const terms = (right: number, sigma: number, seeds: number) =>
      Array.from({ length: seeds }, (_, k) => {
        const [{ recording }] = simulateRun(block, { seed: k + 1, receivers: [{ name: 'a', sigma, bias: right }] });
        return whole(assess(block, [recording])).turnTerm!;
      });
    const turned = (3 * Math.PI) / 2;

    test.each([
      ['outside', -2, 0.05],
      // nearer to the corner than it is to the leg, some metres before and behind
      ['inside', 2, 0.15],
    ])('2 m %s of most: 9.4 m', (_, right, within) => {
      for (const term of terms(right, 0.01, 4)) expect(Math.abs(term / (-right * turned) - 1)).toBeLessThan(within);
    });

    test('σ 1 m: the scatter at the corners does not decide, forth and back cancel', () => {
      const found = terms(3, 1, 12);
      const truth = -3 * turned;
      const rms = Math.sqrt(found.reduce((sum, term) => sum + (term - truth) ** 2 / found.length, 0));
      expect(rms).toBeLessThan(0.22 * Math.abs(truth));
    });
  });

  test('25 chords around the circle: what they cut is the remainder', () => {
    const row = ringRow(() => 0, 25);
    const cut = 25 * 2 * 60 * Math.sin(Math.PI / 25) - 2 * Math.PI * 60;
    expect(row.lengthError).toBeCloseTo(cut, 1);
    expect(cut).toBeLessThan(-0.9);
    expect(row.remainder! + row.turnTerm!).toBeCloseTo(cut, 1);
  });

  test('a lap to the left and one to the right, both 3 m right of the line: each 18.85 m off, the total right', () => {
    const eight = routeBuilder()
      .start(start)
      .lineBy({ azimuth: 90, distance: 10 })
      .section('left loop')
      .arc({ turn: 'left', radius: 60, sweep: 360 })
      .section('right loop')
      .arc({ turn: 'right', radius: 60, sweep: 360 })
      .build();
    const fine: FixBeside[] = Array.from({ length: Math.ceil(eight.length) + 1 }, (_, i) => ({
      along: Math.min(i, eight.length),
      right: 3,
      seconds: i / 3,
    }));
    const assessment = assess(eight, [besideRoute(eight, 'a', fine)]);
    const [out, inside] = assessment.rows;
    expect(Math.abs(out.lengthError! - 18.85)).toBeLessThan(0.3);
    expect(Math.abs(inside.lengthError! + 18.85)).toBeLessThan(0.3);
    const [total] = assessment.totals;
    expect(Math.abs(total.lengthError)).toBeLessThan(0.5);
    expect(Math.abs(total.absoluteErrors - 2 * 18.85)).toBeLessThan(0.8);
    // |18.85 − 18.85| ÷ (18.85 + 18.85)
    expect(total.cancellation).toBeLessThan(0.02);
    expect(total.termCancellation).toBeLessThan(0.02);
  });

  test('sections in one another: each metre once, as part of the innermost', () => {
    const loops = (outer: 'one around both' | 'none') => {
      const built = routeBuilder().start(start, { azimuth: 90 });
      const whole = 2 * Math.PI * 60;
      return (outer === 'none' ? built : built.section('both', { from: 0, to: 2 * whole - 1 }))
        .section('left loop', { from: 0, to: whole })
        .arc({ turn: 'left', radius: 60, sweep: 360 })
        .section('right loop', { from: whole, to: 2 * whole - 1 })
        .arc({ turn: 'right', radius: 60, sweep: 360 })
        .lineBy({ azimuth: 90, distance: 100 })
        .build();
    };
    const totalOf = (route: Route) => {
      const fixes = Array.from({ length: Math.ceil(route.length) + 1 }, (_, i) => {
        return { along: Math.min(i, route.length), right: 3, seconds: i / 3 };
      });
      return assess(route, [besideRoute(route, 'a', fixes)]).totals[0];
    };
    const [nested, plain] = [totalOf(loops('one around both')), totalOf(loops('none'))];
    expect(nested).toEqual(plain);
    expect(Math.abs(nested.absoluteErrors - 2 * 18.85)).toBeLessThan(0.8);
  });

  test('errors of one sign do not cancel: the ratio is 1; without sections there is none', () => {
    const twice = routeBuilder()
      .start(start)
      .lineBy({ azimuth: 90, distance: 10 })
      .section('one')
      .arc({ turn: 'left', radius: 60, sweep: 180 })
      .section('two')
      .arc({ turn: 'left', radius: 60, sweep: 150 })
      .build();
    const fine = Array.from({ length: Math.ceil(twice.length) + 1 }, (_, i) => ({
      along: Math.min(i, twice.length),
      right: 3,
      seconds: i / 3,
    }));
    expect(assess(twice, [besideRoute(twice, 'a', fine)]).totals[0].cancellation).toBeCloseTo(1, 6);
    expect(assess(street, [beside(street, () => 1)]).totals[0].cancellation).toBeNull();
  });
});

describe('distance and time shown at marks', () => {
  const marked = routeBuilder()
    .start(start)
    .lineBy({ azimuth: 90, distance: 200 })
    .mark('crane')
    .lineBy({ azimuth: 90, distance: 200 })
    .mark('slipway')
    .lineBy({ azimuth: 90, distance: 200 })
    .build();
  const step = Math.hypot(3, 2);
  const zigzag = steadyFixes({ from: 0, to: 600 }, (s) => (Math.round(s / 3) % 2 === 0 ? 1 : -1));
  const shown = (fixes: readonly FixBeside[]) => assess(marked, [besideRoute(marked, 'a', fixes)]).distances;

  test('inside the route: what was recorded until there, by interpolation between the fixes on both sides', () => {
    const [crane, slipway, finish] = shown(zigzag);
    expect([crane.mark, slipway.mark, finish.mark]).toEqual(['crane', 'slipway', null]);
    expect([crane, slipway, finish].map(({ alongTrack }) => Math.round(alongTrack))).toEqual([200, 400, 600]);
    expect(crane.recorded).toBeCloseTo((200 / 3) * step, 1);
    expect(slipway.recorded).toBeCloseTo((400 / 3) * step, 1);
    expect(finish.recorded).toBeCloseTo(200 * step, 1);
    expect(slipway.error).toBeCloseTo((400 / 3) * (step - 3), 1);
    expect(crane.seconds).toBeCloseTo(200 / 3, 3);
    expect(slipway.late).toBeNull();
  });

  test('a silence over a mark leaves it unknown; the next one counts on over it, straight', () => {
    const gap = zigzag.filter(({ along }) => along <= 150 || along >= 252);
    const [crane, slipway] = shown(gap);
    expect([crane.recorded, crane.error, crane.seconds]).toEqual([null, null, null]);
    expect(slipway.recorded).toBeCloseTo((150 / 3) * step + 102 + (148 / 3) * step, 1);
    expect(slipway.seconds).toBeCloseTo(400 / 3, 3);
  });

  test('a break of the file is not bridged: the metres over it are missing at every later mark', () => {
    const gap = zigzag
      .filter(({ along }) => along <= 150 || along >= 252)
      .map((fix) => ({ ...fix, gap: fix.along === 252 }));
    const [crane, slipway, finish] = shown(gap);
    expect(crane.recorded).toBeNull();
    expect(slipway.recorded).toBeCloseTo((150 / 3) * step + (148 / 3) * step, 1);
    expect(finish.error).toBeCloseTo((498 / 3) * step - 600, 1);
  });

  test('joined late, distance and time count from there; a mark before that is unknown', () => {
    const [crane, slipway] = shown(steadyFixes({ from: 300, to: 600 }, () => 1));
    expect(crane.recorded).toBeNull();
    expect(slipway.recorded).toBeCloseTo(100, 1);
    expect(slipway.error).toBeCloseTo(0, 1);
    expect(slipway.seconds).toBeCloseTo(100 / 3, 3);
  });

  test('against the median of three: the clock that is 4 s ahead is 4 s late everywhere, the others not at all', () => {
    const late = (seconds: number) => steadyFixes({ from: 0, to: 600 }, () => 1, seconds);
    const shift = (fixes: FixBeside[], name: string, seconds: number) => {
      const recording = besideRoute(marked, name, fixes);
      return { ...recording, time: recording.time!.map((instant) => instant + 1000 * seconds) };
    };
    const assessment = assess(marked, [shift(late(0), 'a', 0), shift(late(0), 'b', 4), shift(late(0), 'c', -0.5)]);
    expect(assessment.recordings.map(({ lag }) => Math.round(1000 * lag!.median) / 1000)).toEqual([0, 4, -0.5]);
    expect(assessment.recordings.map(({ lag }) => lag!.spread < 1e-6)).toEqual([true, true, true]);
    const atCrane = assessment.distances.filter(({ mark }) => mark === 'crane');
    expect(atCrane.map((one) => Math.round(1000 * one.late!) / 1000)).toEqual([0, 4, -0.5]);
  });
});

describe('two recordings', () => {
  const slow = (s: number) => 3 * Math.sin((2 * Math.PI * s) / 200);
  const quick = (s: number) => 2 * Math.sin((2 * Math.PI * s) / 50);
  const third = (s: number) => 2 * Math.cos((2 * Math.PI * s) / 50);

  test('a shared wave and one of their own each: its share of the variance is the correlation', () => {
    // variances of the waves: 3²/2 shared, 2²/2 own
    const shared = 9 / (9 + 4);
    const [pair] = assess(street, [
      beside(street, (s) => slow(s) + quick(s), 'a'),
      beside(street, (s) => slow(s) + third(s), 'b'),
    ]).pairs;
    expect(pair.correlation).toBeCloseTo(shared, 2);
    expect(pair.commonModeShare).toBeCloseTo(shared, 2);
  });

  test('opposite errors: correlation −1, nothing in common', () => {
    const [pair] = assess(street, [beside(street, slow, 'a'), beside(street, (s) => -slow(s), 'b')]).pairs;
    expect(pair.correlation).toBeCloseTo(-1, 4);
    expect(pair.commonModeShare).toBe(0);
    expect(pair.between).toBeCloseTo((2 * 3 * 2) / Math.PI, 1);
    expect(pair.difference).toBeCloseTo(0, 6);
  });

  test('at the same instant: 9 m aside and 4 s behind at 3 m/s are √(9² + 12²) = 15 m', () => {
    const behind = besideRoute(
      street,
      'b',
      steadyFixes({ from: 0, to: 588 }, () => -5),
    );
    const [pair] = assess(street, [
      beside(street, () => 4, 'a'),
      { ...behind, time: behind.time!.map((instant) => instant + 4000) },
    ]).pairs;
    expect(pair.apart!.median).toBeCloseTo(15, 1);
    expect(pair.apart!.p95).toBeCloseTo(15, 1);
  });
});

test('laps at 1, 2 and 4 m: their spread at a place is that of the three numbers', () => {
  const oval = routeBuilder()
    .start(start)
    .lineBy({ azimuth: 90, distance: 10 })
    .laps(3, (one) => one.section('oval').arc({ turn: 'left', radius: 60, sweep: 360 }))
    .build();
  const each = (oval.length - 10) / 3;
  const right = [1, 2, 4];
  const fixes = steadyFixes(
    { from: 0, to: oval.length },
    (s) => right[Math.max(0, Math.min(2, Math.floor((s - 10) / each)))],
  );
  const [{ laps, sd }] = assess(oval, [besideRoute(oval, 'a', fixes)]).lapRepeatability;
  expect(laps).toBe(3);
  // 7/3 the mean: (16/9 + 1/9 + 25/9) ÷ 2
  expect(sd).toBeCloseTo(Math.sqrt(42 / 9 / 2), 1);
});

test('fixes that lag by a low-pass of 4 s cut a corner of 90° by v τ/e = 4.41 m at 3 m/s', () => {
  const corner = direct(start, 90, 150).position as [number, number];
  const bend = routeFromLine([start, corner, direct(corner, 180, 150).position]);
  // The filter follows (vt, 0), then (0, vt): it lies v τ e^(−t/τ) short of the corner's second leg while it has left the
  // first by v (t − τ + τ e^(−t/τ)). Both are v τ/e at t = τ: nearest to neither leg, and furthest from the route.
  const [v, tau] = [3, 4];
  const positions: [number, number][] = [];
  for (let t = -49; t <= 60; t += 0.25) {
    const decay = Math.exp(-t / tau);
    const [east, south] = t < 0 ? [v * (t - tau), 0] : [-v * tau * decay, v * (t - tau + tau * decay)];
    positions.push(direct(direct(corner, 90, east).position, 180, south).position as [number, number]);
  }
  const [{ passages, turn }] = assess(bend, [
    recordingOf(positions, { name: 'a', times: positions.map((_, i) => i / 4) }),
  ]).corners;
  expect(turn).toBeCloseTo(90, 0);
  expect(passages[0].outcome).toBe('cut inside');
  expect(Math.abs(passages[0].inside! + (v * tau) / Math.E)).toBeLessThan(0.35);
  expect(passages[0].outside).toBeLessThan(0.1);
});

test('past the corner by 5 m and back to the line: overshot outside by 5 m', () => {
  const corner = direct(start, 90, 150).position as [number, number];
  const bend = routeFromLine([start, corner, direct(corner, 180, 150).position]);
  // straight on for 5 m, along a line 5 m outside for 6 m, then slanting back within 30 m
  const plane = [
    ...Array.from({ length: 52 }, (_, i) => [-148 + 3 * i, 0]),
    ...Array.from({ length: 3 }, (_, i) => [5, 2 * i + 2]),
    ...Array.from({ length: 45 }, (_, i) => [Math.max(0, 5 - (i + 1) / 2), 6 + 3 * (i + 1)]),
  ];
  const positions = plane.map(
    ([east, south]) => direct(direct(corner, 90, east).position, 180, south).position as [number, number],
  );
  const [{ passages }] = assess(bend, [recordingOf(positions, { name: 'a' })]).corners;
  expect(passages[0].outcome).toBe('overshot outside');
  expect(passages[0].outside).toBeCloseTo(5, 1);
  expect(passages[0].inside).toBeGreaterThan(-0.3);
});

test('a stop: radii about the mean position of fixes on a circle of 2 m with a tenth of them at 6 m', () => {
  // 54 of 60 fixes 2 m from the mean, 6 of them 6 m: half within 2 m, 95 % within 6 m, in any sense of a percentile
  const standing: FixBeside[] = Array.from({ length: 60 }, (_, i) => {
    const radius = i % 10 === 9 ? 6 : 2;
    // opposite directions in turn, so that the mean stays where it is
    const radians =
      (2 * Math.PI * (i % 10 === 9 ? (i - 9) / 10 : Math.floor(i / 10) * 9 + (i % 10))) / (i % 10 === 9 ? 6 : 54);
    return { along: 300 + radius * Math.cos(radians), right: radius * Math.sin(radians), seconds: 101 + i };
  });
  const fixes = [
    ...steadyFixes({ from: 0, to: 297 }, () => 0),
    ...standing,
    ...steadyFixes({ from: 303, to: 600 }, () => 0, 161),
  ];
  const [stop] = assess(street, [besideRoute(street, 'a', fixes)]).recordings[0].stops;
  expect(stop.alongTrack).toBeCloseTo(300, -0.5);
  expect(stop.seconds).toBeGreaterThanOrEqual(55);
  expect(stop.seconds).toBeLessThanOrEqual(66);
  expect(stop.r50).toBeCloseTo(2, 0);
  expect(stop.r95).toBeCloseTo(6, 0);
});
