import { readFileSync } from 'node:fs';
import { type AssessmentRow, assess, combine, direct, routeBuilder, rowOf, snap } from 'datumline';
import { expect, test } from 'vitest';
import { documentSchema } from '../../schemas.config';
import { besideRoute, type FixBeside, steadyFixes } from '../support/besideRoute';
import { correlatedOffsets, meanAbsoluteOf, normals } from '../support/correlatedOffsets';
import { recordingOf } from './recordingOf';

// What docs/questions.md names, and what each must be on tests whose truth is known: 3 m a second, one fix a second.

const start: [number, number] = [2.1, 61.4];
const quay = routeBuilder({ name: 'quay', lateral95: 0.5 })
  .start(start)
  .provenance({ source: 'an invented survey', lateral95: 0.5 })
  .section('west', { halfWidth: 6 })
  .lineBy({ azimuth: 90, distance: 300 })
  .mark('middle')
  .section('east', { halfWidth: 6 })
  .lineBy({ azimuth: 90, distance: 300 })
  .build();
const beside = (name: string, right: (along: number) => number, begin = 0) =>
  besideRoute(quay, name, steadyFixes({ from: 0, to: 600 }, right, begin));
const line = (right: (along: number) => number) =>
  Array.from({ length: 201 }, (_, i) => {
    const [lon, lat] = [beside('line', right).lon, beside('line', right).lat];
    return [lon[i], lat[i]];
  });

/** An area along the whole of it, from so far right to so far. */
const strip = (name: string, kind: 'allowed' | 'impossible', from: number, to: number) => {
  const side = (right: number) =>
    // a vertex every 30 m: over 660 m the line straight in degrees would lie 1.5 cm off
    Array.from({ length: 23 }, (_, i) => direct(direct(start, 90, 30 * i - 30).position, 180, right).position);
  const ring = [...side(from), ...side(to).reverse(), side(from)[0]];
  return { name, kind, geometry: { type: 'Polygon' as const, coordinates: [ring] } };
};

/** `a` from 0 to 10 m right, `b` from 12 to 7 m left, `c` weaving 3 m to both sides every 60 m and 5 s late. */
const ramp = (s: number) => s / 60;
const aside = (s: number) => s / 120 - 12;
const weave = (s: number) => 3 * Math.sin((2 * Math.PI * s) / 60);
const single = { ...recordingOf([start], { name: 'single' }) };
const main = assess(quay, [beside('a', ramp), beside('b', aside), beside('c', weave, 5), single], {
  centreline: line(() => -3),
  decoy: line((s) => 8 * Math.sin(s / 25)),
});
const a = rowOf(main, { recording: 'a' });
const b = rowOf(main, { recording: 'b' });
const c = rowOf(main, { recording: 'c' });
const pair = main.pairs.find(({ first, second, section }) => first === 'a' && second === 'b' && section === null)!;
const recorded = (name: string, assessment = main) => assessment.recordings.find((one) => one.name === name)!;

/**
 * What is known of each is known exactly: a mean and a normal scatter about it that forgets itself within 3 s. `d` 3 m right,
 * `e` 9 m left, beyond the corridor, `f` on the line and wide, `g` as far left as `d` is right. 200 s of it are worth
 * T ÷ 2τ = 33 independent samples, less what is lost at the two ends: 1 ÷ v₀ of the closed form for such a process.
 */
const scattered = { d: [3, 0.8], e: [-9, 0.8], f: [0, 4], g: [-3, 0.8] } as const;
const MEMORY = 3;
const SECONDS = 200;
const samplesTrue = 1 / (2 * (MEMORY / SECONDS) * (1 - (MEMORY / SECONDS) * (1 - Math.exp(-SECONDS / MEMORY))));
/** Standard error of the mean of what scatters by 1 m. */
const errorTrue = 1 / Math.sqrt(samplesTrue);
const scatter = (seed: number, run?: string) =>
  assess(
    quay,
    Object.entries(scattered).map(([name, [bias, sigma]], k) => {
      const normal = normals(100 * seed + k);
      const offsets = correlatedOffsets(normal, { seconds: SECONDS + 1, correlation: MEMORY, sigma, bias });
      return { recording: beside(name, (s) => offsets[Math.round(s / 3)]), receiver: name, run };
    }),
    { centreline: line(() => -3), areas: [strip('road', 'allowed', -6, 6)] },
  );
const noisy = scatter(1);
const d = rowOf(noisy, { recording: 'd' });
const e = rowOf(noisy, { recording: 'e' });
const f = rowOf(noisy, { recording: 'f' });
const noisyPair = (first: string, second: string) =>
  noisy.pairs.find((one) => one.first === first && one.second === second && one.section === null)!;
const [farther, alike] = [noisyPair('d', 'e'), noisyPair('d', 'g')];
/** Share of a normal scatter below a limit, by Simpson's rule. */
const normalBelow = (z: number) => {
  const density = (x: number) => Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
  const width = z / 400;
  let sum = 0;
  for (let i = 0; i <= 400; i++) sum += (i === 0 || i === 400 ? 1 : i % 2 === 1 ? 4 : 2) * density(i * width);
  return 0.5 + (sum * width) / 3;
};
/** Holds what is true, and is as wide as one who knows the scatter would make it, to within half as much again, with as many errors. */
const holds =
  (truth: number, error: number, quantile = 1.96) =>
  ([low, high]: readonly number[]) =>
    low <= truth && truth <= high && high - low > quantile * error && high - low < 3 * quantile * error;

/** `a` leaves a road of 5 m to each side half way, and is in a house from 8 m right on: the last fifth. */
const grounded = assess(quay, [beside('a', ramp)], {
  areas: [{ ...strip('road', 'allowed', -5, 5), doubt95: 1 }, strip('house', 'impossible', 8, 20)],
});
const onGround = rowOf(grounded, { recording: 'a' });

/** From 30 m before the start to 30 m past the finish: ten fixes, those within reach of the receiver's errors on it already. */
const through = assess(quay, [
  recordingOf(
    Array.from({ length: 221 }, (_, i) => direct(start, 90, 3 * i - 30).position as [number, number]),
    { name: 'through' },
  ),
]);
const steady = steadyFixes({ from: 0, to: 600 }, () => 1);
const only = (name: string, fixes: readonly FixBeside[]) => assess(quay, [besideRoute(quay, name, fixes)]);
/** No fix between 402 and 600 m. */
const silent = only(
  'silent',
  steady.filter(({ along }) => along <= 402 || along >= 600),
);
/** A minute at 300 m. */
const standing = only('standing', [
  ...steady.slice(0, 101),
  ...Array.from({ length: 59 }, (_, i) => ({ along: 300, right: 1, seconds: 101 + i })),
  ...steady.slice(101).map((fix) => ({ ...fix, seconds: fix.seconds + 59 })),
]);
/** Back from 300 to 270 m and on again, placed where it was: what is tested is what becomes of it. */
const backAndOn = [
  ...steady.slice(0, 101),
  ...Array.from({ length: 10 }, (_, i) => ({ along: 297 - 3 * i, right: 1, seconds: 101 + i })),
  ...steady.slice(91).map((fix) => ({ ...fix, seconds: fix.seconds + 20 })),
];
const turner = besideRoute(quay, 'turning', backAndOn);
const alongTrack = Float64Array.from(backAndOn, ({ along }) => along);
const turning = assess(quay, [{ recording: turner, snapped: { ...snap(quay, turner), alongTrack } }]);
/** 100 m to the right between 250 and 350 m, there and back over 50 m each. */
const strayed = only(
  'strayed',
  steadyFixes({ from: 0, to: 600 }, (s) => Math.max(1, Math.min(100, 2 * (s - 200), 2 * (400 - s)))),
);
const lookalike = beside('lookalike', () => 1);
const doubted = assess(quay, [
  {
    recording: lookalike,
    snapped: {
      ...snap(quay, lookalike),
      ambiguous: [
        { from: 150, to: 300, firstFix: 50, lastFix: 100, shift: 300, reason: 'repeated-pass', message: 'Twice here.' },
      ],
    },
  },
]);
const oval = routeBuilder()
  .start(start, { azimuth: 0 })
  .laps(3, (lap) => lap.section('oval', { halfWidth: 6 }).arc({ turn: 'left', radius: 60, sweep: 360 }))
  .build();
/** 1, 2 and 3 m right in the three laps: spread 1 m at every place. */
const laps = assess(oval, [
  besideRoute(
    oval,
    'laps',
    steadyFixes({ from: 0, to: oval.length }, (s) => 1 + Math.min(2, Math.floor((3 * s) / oval.length))),
  ),
]);
/** A right turn, passed 3 m to its outside. */
const bend = routeBuilder()
  .start(start)
  .lineBy({ azimuth: 90, distance: 200 })
  .lineBy({ azimuth: 180, distance: 200 })
  .build();
const turned = assess(bend, [
  besideRoute(
    bend,
    'turned',
    steadyFixes({ from: 0, to: 400 }, () => -3),
  ),
]);
/** Everything 2 m to the north-east of a ring: what all share. */
const ring = routeBuilder().start(start, { azimuth: 0 }).arc({ turn: 'left', radius: 100, sweep: 360 }).build();
const metres = (s: number) => direct([ring.lon[s], ring.lat[s]], 45, 2).position as [number, number];
const displaced = assess(ring, [
  recordingOf(
    Array.from(ring.lon, (_, i) => metres(i)),
    { name: 'displaced', times: null },
  ),
]);

/** A nearer in the west, B in the east; over all A at 3, 2, 3 m and B at 4, 5, 4 m, swapped in the second run. */
const runs = [
  [3, 4, 'left wrist', 'right wrist'],
  [2, 5, 'right wrist', 'left wrist'],
  [3, 4, 'left wrist', 'right wrist'],
].map(([near, far, worn, other], k) =>
  assess(quay, [
    {
      recording: beside('A', (s) => (s < 300 ? 0 : 2 * Number(near))),
      receiver: 'A',
      placement: `${worn}`,
      run: `${k}`,
    },
    {
      recording: beside('B', (s) => (s < 300 ? 2 * Number(far) : 0)),
      receiver: 'B',
      placement: `${other}`,
      run: `${k}`,
    },
  ]),
);
const summary = combine(runs);
const summedPair = summary.pairs.at(-1)!;
const summedRow = summary.rows.find(({ receiver, section }) => receiver === 'A' && section === null)!;
/**
 * Between runs the logarithm of the ratio of A to B scatters by that of A's share of its mean less B's of its: 9 ÷ 8, 6 ÷ 8
 * and 9 ÷ 8 less 12 ÷ 13, 15 ÷ 13 and 12 ÷ 13. Within they hardly scatter, so that this is all there is.
 */
const apart = [9 / 8 - 12 / 13, 6 / 8 - 15 / 13, 9 / 8 - 12 / 13];
const spreadOfRatio = Math.sqrt(apart.reduce((sum, one) => sum + one * one, 0) / 2);

/**
 * How many spreads between runs a difference must be, for so many of them and Student's t of as many degrees, to be found four
 * times in five: the non-central t of Abramowitz, Stegun 26.7.10, of two thirds of the spread squared.
 */
function foundAt(of: number, t: number): number {
  return (t * (1 - 1 / (4 * of)) + 0.8416 * Math.sqrt(1 + t ** 2 / (2 * of))) * Math.sqrt(2 / 3 / of);
}

/** Two-sided probability of Student's t with three degrees of freedom (Abramowitz, Stegun 26.7.3). */
function studentThree(t: number): number {
  const angle = Math.atan(t / Math.sqrt(3));
  return 1 - (2 / Math.PI) * (angle + Math.sin(angle) * Math.cos(angle));
}

/** The scattered four once more, three times: 3 × 33 samples. */
const scatteredRuns = combine([2, 3, 4].map((seed) => scatter(seed, `${seed}`)));
const inRuns = (name: string) =>
  scatteredRuns.rows.find(({ receiver, section }) => receiver === name && section === null)!;
const equalInRuns = scatteredRuns.pairs.find(
  ({ first, second, section }) => first === 'd' && second === 'g' && section === null,
)!;

type Check = number | ((value: never) => boolean);
/** The thing that has the field, what the field must be, and how near. */
type Truth = readonly [has: object, is: Check, within?: number];
const always = (part: object) => (value: never) => {
  expect(value).toMatchObject(part);
  return true;
};
const same = (expected: unknown) => (value: never) => {
  expect(value).toEqual(expected);
  return true;
};
const reasons =
  (...expected: string[]) =>
  (limits: readonly { reason: string }[]) =>
    same(expected)(limits.map(({ reason }) => reason) as never);

const truths: Record<string, Truth> = {
  'rows.coverage': [rowOf(silent, { recording: 'silent' }), 402 / 600, 0.004],
  'rows.covered': [rowOf(silent, { recording: 'silent' }), 402, 2],
  'rows.missing': [rowOf(silent, { recording: 'silent' }), 198, 2],
  'recordings.gaps': [
    recorded('silent', silent),
    ([gap, ...others]: { reason: string; seconds: number; metres: number; from: number }[]) =>
      others.length === 0 && gap.reason === 'silence' && gap.seconds === 66 && Math.abs(gap.metres - 198) < 0.1,
  ],
  'rows.gaps': [rowOf(silent, { recording: 'silent', section: 'east' }), 1],
  'recordings.fixInterval': [recorded('a'), always({ median: 1, p95: 1, regularShare: 1, kind: 'fixed' })],
  'recordings.fixSpacing': [recorded('a'), ({ median }: { median: number }) => Math.abs(median - 3) < 0.01],
  'rows.fixInterval': [a, 1],
  // within 6 m up to 360 m: from the first fix on
  'recordings.settled': [recorded('a'), always({ seconds: 0 })],
  'recordings.before': [
    recorded('through', through),
    ({ fixes, length }: { fixes: number; length: number }) =>
      Math.abs(fixes - 10) < 3 && Math.abs(length - 3 * fixes) < 0.01,
  ],
  'recordings.after': [
    recorded('through', through),
    ({ fixes, seconds }: { fixes: number; seconds: number }) => Math.abs(fixes - 10) < 3 && seconds === fixes,
  ],
  'recordings.joined': [recorded('a'), 0, 0.01],
  'recordings.left': [recorded('a'), 600, 0.01],
  'recordings.laps': [recorded('laps', laps), always({ planned: 3, seen: 3 })],
  'recordings.backwards': [
    recorded('turning', turning),
    ({ metres }: { metres: number }) => Math.abs(metres - 30) < 1e-6,
  ],
  'recordings.offRoute': [
    recorded('strayed', strayed),
    ([one]: { from: number; to: number; peak: number }[]) =>
      one.from > 200 && one.from < 240 && one.to > 360 && one.to < 400 && Math.abs(one.peak - 100) < 1,
  ],
  // fixes up to 15 m off are beside the route: off it from 207.5 to 392.5 m
  'rows.offRoute': [rowOf(strayed, { recording: 'strayed' }), 185, 4],
  'recordings.stops': [
    recorded('standing', standing),
    ([stop]: { alongTrack: number; seconds: number; r95: number }[]) =>
      Math.abs(stop.alongTrack - 300) < 3 && Math.abs(stop.seconds - 60) < 5 && stop.r95 < 5,
  ],
  'recordings.lag': [recorded('c'), ({ median }: { median: number }) => Math.abs(median - 5) < 0.3],
  // the same positions, another name and clock
  'recordings.hash': [recorded('a'), same(assess(quay, [beside('another', ramp, 7)]).recordings[0].hash)],
  // three that keep one pace, one of them with a clock that is 5 s ahead
  'rows.alongTrackError': [
    rowOf(main, { recording: 'c', section: 'east' }),
    ({ bias, p95, lag, receivers }: { bias: number; p95: number; lag: number; receivers: number }) =>
      Math.abs(bias) < 0.1 && p95 < 0.3 && Math.abs(lag - 5) < 0.1 && receivers === 3,
  ],
  'distances.late': [main.distances.find(({ recording, mark }) => recording === 'c' && mark === 'middle')!, 5, 0.3],
  'recordings.placing': [recorded('a'), (issues: readonly unknown[]) => issues.length === 0],
  'recordings.confidence': [recorded('a'), ({ mean }: { mean: number }) => mean > 0.99],
  // the fixes 50 to 100 of one every 3 m
  'recordings.ambiguous': [
    recorded('lookalike', doubted),
    ([span]: { from: number; to: number; message: string }[]) =>
      Math.round(span.from) === 150 && Math.round(span.to) === 300 && span.message === 'Twice here.',
  ],
  'rows.ambiguousShare': [rowOf(doubted, { recording: 'lookalike' }), 150 / 600, 0.005],
  'recordings.data': [
    recorded('a'),
    always({ duplicates: 0, reversedTimes: 0, jumps: 0, missingTimes: 0, issues: [] }),
  ],
  'recordings.states': [recorded('a'), same({ on: 201, off: 0, before: 0, after: 0, unplaced: 0 })],
  'recordings.included': [recorded('single'), same(false)],
  'recordings.leftOut': [recorded('single'), always({ reason: 'too-few-fixes' })],
  warnings: [
    main,
    (found: { reason: string; recording: string | null }[]) =>
      found.some(({ reason, recording }) => reason === 'too-few-fixes' && recording === 'single'),
  ],

  // even from 0 to 10: quantiles are ten times their share
  'rows.meanAbsolute': [a, 5, 0.02],
  'rows.timeWeighted': [
    a,
    ({ seconds, meanAbsolute }: { seconds: number; meanAbsolute: number }) =>
      Math.abs(seconds - 200) < 0.1 && Math.abs(meanAbsolute - 5) < 0.02,
  ],
  'rows.median': [a, 5, 0.05],
  'rows.p68': [a, 6.8, 0.05],
  'rows.p90': [a, 9, 0.05],
  'rows.p95': [a, 9.5, 0.05],
  'rows.max': [a, 10, 0.05],
  'rows.rms': [a, 10 / Math.sqrt(3), 0.02],
  'rows.bias': [b, -9.5, 0.02],
  'rows.biasInterval95': [e, holds(-9, 0.8 * errorTrue)],
  'rows.lineVerdict': [e, same('strayed')],
  'rows.strayedTo': [e, same('left')],
  'rows.lineLimit': [e, 6],
  'rows.halfWidth': [e, 6],
  'rows.sureSide': [d, same('right')],
  'rows.sideLimit': [d, 0.5],
  'rows.biasSide': [b, same('left')],
  'rows.biasInWords': [b, same('9.5 m left')],
  'rows.medianOffset': [b, -9.5, 0.05],
  'rows.sd': [a, 10 / Math.sqrt(12), 0.02],
  // half of the values lie within 2.5 m of the median
  'rows.robustSd': [a, 1.4826 * 2.5, 0.03],
  // b is more than 6 m off all the way, and furthest at the start
  excursions: [
    main,
    ([worst]: (typeof main.excursions)[number][]) =>
      worst.recording === 'b' &&
      worst.side === 'left' &&
      Math.abs(worst.peak + 12) < 0.05 &&
      Math.abs(worst.metres - 600) < 1 &&
      Math.abs(worst.area - 5700) < 30,
  ],
  'rows.insideCorridor': [a, 0.6, 0.005],
  // 6 m are 1.5 σ
  'rows.insideCorridorInterval95': [
    f,
    ([low, high]: readonly number[]) => {
      const share = 2 * normalBelow(1.5) - 1;
      return low > share - 0.25 && low < share && high > share && high <= 1;
    },
  ],
  'rows.insideCorridorOfAll': [rowOf(silent, { recording: 'silent' }), 402 / 600, 0.005],
  // the centreline lies 3 m left: a is right of it, as the route is, b left of it; c crosses it nowhere, and comes within
  // half a metre of it where 3 sin x < −2.5, which is arccos(2.5 / 3) ÷ π of the way
  'rows.correctSide': [b, 0, 0.005],
  // the centreline is known to half a metre: right of it beyond 2.5 m left
  'rows.correctSideInterval95': [
    f,
    ([low, high]: readonly number[]) => {
      const share = normalBelow(2.5 / 4);
      return low > share - 0.3 && low < share && high > share && high < share + 0.25;
    },
  ],
  'rows.undecidedSide': [c, Math.acos(2.5 / 3) / Math.PI, 0.02],
  // to 4 m right it is surely on the road, from there to 6 m within the metre that its edge is known to
  'rows.insideAllowed': [onGround, 0.4, 0.002],
  'rows.undecidedAllowed': [onGround, 0.2, 0.002],
  'rows.insideAllowedInterval95': [
    f,
    ([low, high]: readonly number[]) => {
      const share = 2 * normalBelow(1.5) - 1;
      return low > share - 0.35 && low < share && high > share - 0.05 && high <= 1;
    },
  ],
  'rows.outsideAllowed': [
    onGround,
    ({ metres, seconds }: { metres: number; seconds: number }) =>
      Math.abs(metres - 240) < 1 && Math.abs(seconds - 80) < 0.5,
  ],
  'rows.insideImpossible': [
    onGround,
    ({ metres, seconds, times }: { metres: number; seconds: number; times: number }) =>
      Math.abs(metres - 120) < 1 && Math.abs(seconds - 40) < 0.5 && times === 1,
  ],
  'rows.areas': [
    onGround,
    (areas: readonly { area: string; inside: number }[]) =>
      areas.length === 2 && areas[1].area === 'house' && Math.abs(areas[1].inside - 0.2) < 0.002,
  ],
  passages: [
    grounded,
    ([outside, through]: (typeof grounded.passages)[number][]) =>
      outside.area === null &&
      Math.abs(outside.metres - 240) < 1 &&
      // the route's second leg sets out eastward again: 2.6 cm off the geodesic of the strip at its end
      Math.abs(outside.deepest - 5) < 0.03 &&
      through.area === 'house' &&
      Math.abs(through.from - 480) < 1 &&
      Math.abs(through.deepest - 2) < 0.03,
  ],
  'corners.passages': [
    turned.corners[0],
    ([passage]: (typeof turned.corners)[number]['passages'][number][]) =>
      passage.outcome === 'overshot outside' && Math.abs(passage.mean! - 3) < 0.35,
  ],
  'rows.area': [c, (600 * 6) / Math.PI, 15],
  'rows.signedArea': [c, 0, 10],
  'rows.lengthError': [a, Math.hypot(600, 10) - 600, 0.01],
  // outside of a circle of 60 m by 1, 2 and 3 m: 2π (1 + 2 + 3)
  'rows.turnTerm': [rowOf(laps, { recording: 'laps' }), 12 * Math.PI, 0.7],
  'rows.wiggleTerm': [a, Math.hypot(600, 10) - 600, 0.01],
  'rows.remainder': [a, 0, 0.01],
  'rows.mapAttraction': [
    b,
    ({ index, verdict }: NonNullable<AssessmentRow['mapAttraction']>) => verdict === 'not attracted' && index! < 0.1,
  ],
  'rows.roughness': [c, ({ crossings }: { crossings: number }) => Math.abs(crossings - 2000 / 60) < 3],
  // cos(2π k ÷ 60) (1 − k ÷ 600) falls below 1/e at 12 m, 4 s
  'rows.correlationLength': [c, 12, 1],
  'rows.correlationTime': [c, 4, 0.4],
  // one memory is read off all four: that of three, or of the distance of a scatter across the line, which lasts half as long
  'rows.effectiveSamples': [d, (samples: number) => samples > 0.7 * samplesTrue && samples < 1.4 * 2 * samplesTrue],
  'rows.seconds': [a, 200, 0.01],
  'distances.seconds': [
    main.distances.find(({ recording, mark }) => recording === 'a' && mark === 'middle')!,
    100,
    0.01,
  ],
  'rows.pace': [a, ({ median }: { median: number }) => Math.abs(median - 3) < 0.01],
  lapRepeatability: [
    laps,
    ([repeat]: (typeof laps)['lapRepeatability'][number][]) =>
      repeat.section === 'oval' && repeat.laps === 3 && Math.abs(repeat.sd - 1) < 0.1,
  ],
  'rows.resolution': [a, 5 / 0.5, 0.05],
  // moved to the right by 0.5 m, a is 0.5 m nearer and b as much further: their difference changes by 1 m
  'rows.verdictLimit': [a, 1, 0.06],
  // a ramp remembers all the way, and is worth one sample or two; c keeps an error for 12 m
  'rows.limits': [a, reasons('too-short', 'unlike-memories')],
  'rows.interval95': [d, holds(3, 0.8 * errorTrue)],
  'rows.foretold': [
    d,
    ({ bias, meanAbsolute }: { bias: number; meanAbsolute: number }) =>
      [bias, meanAbsolute].every((error) => error > 0.5 * 0.8 * errorTrue && error < 2 * 0.8 * errorTrue),
  ],

  // two units named apart are a pair like any other: three pairs of three recordings, on three stretches
  pairs: [main, ({ length }: readonly unknown[]) => length === 9],
  'pairs.difference': [pair, 5 - 9.5, 0.02],
  'pairs.interval95': [farther, holds(3 - 9, Math.SQRT2 * 0.8 * errorTrue)],
  'pairs.interval90': [alike, holds(0, Math.SQRT2 * 0.8 * errorTrue, 1.645)],
  'pairs.verdict': [farther, same('closer')],
  // six pairs: at least its own, at most six times as much
  'pairs.adjustedPValue': [
    noisyPair('d', 'f'),
    (adjusted: number) =>
      adjusted >= noisyPair('d', 'f').pValue! && adjusted <= Math.min(1, 6 * noisyPair('d', 'f').pValue!) + 1e-12,
  ],
  // moved to the right by half a metre, d lies as much further off and g nearer: nothing below the metre of it is claimed
  'pairs.detectable': [alike, 1, 0.06],
  'pairs.foretold': [
    alike,
    ({ first, second, variance }: { first: number; second: number; variance: number }) => {
      const relative = Math.SQRT2 * (0.8 / 3) * errorTrue;
      return (
        [first, second].every((one) => Math.abs(one - 3) < 0.6) &&
        Math.sqrt(variance) > 0.5 * relative &&
        Math.sqrt(variance) < 2 * relative
      );
    },
  ],
  'pairs.commonShare': [pair, 1],
  'pairs.floor': [pair, 1, 0.06],
  // as many fixes
  'pairs.sparseGain': [pair, 0],
  'pairs.limits': [pair, reasons('too-short')],
  // two ramps, one half as steep: covariance 50/12, variances 100/12 and 25/12
  'pairs.correlation': [pair, 1, 0.001],
  'pairs.commonModeShare': [pair, 0.8, 0.005],
  // 12 to 17 m apart, evenly
  'pairs.apart': [
    pair,
    ({ median, p95 }: { median: number; p95: number }) => Math.abs(median - 14.5) < 0.1 && Math.abs(p95 - 16.75) < 0.1,
  ],
  'pairs.between': [pair, 14.5, 0.02],
  'pairs.lengthDifference': [pair, Math.hypot(600, 10) - Math.hypot(600, 5), 0.01],

  order: [
    main,
    (found: typeof main.order) => same(['west', 'east', null])(found.map(({ section }) => section) as never),
  ],
  'order.entries': [
    main.order.at(-1)!,
    (entries: (typeof main.order)[number]['entries']) =>
      same(['c', 'a', 'b'])(entries.map(({ recording }) => recording) as never),
  ],
  'order.sentence': [
    noisy.order.at(-1)!,
    (sentence: string) =>
      /^Over the whole route: “e” strayed to the left by [89]\.\d m \(.*“d” kept within 6\.0 m on average, surely right of/.test(
        sentence,
      ) && /“d” lay closer than “e” by \d/.test(sentence),
  ],
  // e lies twice as far off as any other
  'order.overallPValue': [noisy.order.at(-1)!, (p: number) => p < 1e-4],
  referenceDoubt: [main, always({ shift: 0.5 })],
  // north-east: 2 m towards 45°
  commonShift: [
    displaced,
    ({ east, north }: { east: number; north: number }) =>
      Math.abs(east - Math.SQRT2) < 0.05 && Math.abs(north - Math.SQRT2) < 0.05,
  ],
  // both sections of a are too long by as much: nothing cancels
  'totals.cancellation': [main.totals.find(({ recording }) => recording === 'a')!, 1, 0.01],
  'totals.termCancellation': [main.totals.find(({ recording }) => recording === 'a')!, 1, 0.01],
  'distances.recorded': [
    main.distances.find(({ recording, mark }) => recording === 'a' && mark === null)!,
    Math.hypot(600, 10),
    0.01,
  ],
  'distances.error': [
    main.distances.find(({ recording, mark }) => recording === 'a' && mark === null)!,
    Math.hypot(600, 10) - 600,
    0.01,
  ],
  'route.sections': [
    main.route,
    (sections: typeof main.route.sections) => sections.every(({ lateral95 }) => lateral95 === 0.5),
  ],
  'route.provenance': [main.route, ([first]: { source?: string }[]) => first.source === 'an invented survey'],
  'route.length': [main.route, 600, 0.001],
  'method.options': [main.method, always({ baseline: null, leverArm: 0.5, equivalence: 1 })],
  method: [main, always({ library: 'datumline', binLength: 1 })],
};

const summaryTruths: Record<string, Truth> = {
  // run by run A − B is −1, −3, −1, A on the left in the first and third: left adds (−1 + 3) ÷ 2
  placementEffects: [
    summary,
    ([effect]: (typeof summary)['placementEffects'][number][]) =>
      effect.first === 'left wrist' && Math.abs(effect.difference - 1) < 0.05 && effect.receivers === 2,
  ],
  order: [
    summary,
    (found: typeof summary.order) => same(['A', 'B'])(found.at(-1)!.entries.map(({ receiver }) => receiver) as never),
  ],
  flips: [summary, same([{ section: 'east', first: 'A', second: 'B' }])],
  design: [
    summary,
    same([
      { receiver: 'A', placement: 'left wrist', runs: 2 },
      { receiver: 'A', placement: 'right wrist', runs: 1 },
      { receiver: 'B', placement: 'right wrist', runs: 2 },
      { receiver: 'B', placement: 'left wrist', runs: 1 },
    ]),
  ],
  // steady within each run, and a metre apart between them; A's line of 3 m is that of two runs, and so is B's of 5 m
  warnings: [
    summary,
    (found: { reason: string; receiver: string; run: string }[]) =>
      same([
        ['runs-differ', 'A', null],
        ['runs-differ', 'B', null],
        ['same-recording', 'A', '2'],
        ['same-recording', 'B', '2'],
      ])(found.map(({ reason, receiver, run }) => [reason, receiver, run]) as never),
  ],
  baseline: [combine(runs, { baseline: 'A' }), same('A')],
  // 3, 2, 3: a third of a metre squared about their mean
  'rows.betweenRunSd': [summedRow, Math.sqrt(1 / 3), 0.03],
  'rows.withinRunSd': [summedRow, 0, 0.05],
  'rows.coverage': [summedRow, 1],
  'rows.meanAbsolute': [inRuns('f'), meanAbsoluteOf(0, 4), 3 * 4 * errorTrue],
  'rows.interval95': [
    inRuns('f'),
    ([low, high]: readonly number[]) => {
      // the distance of a normal scatter from the line itself scatters by √(1 − 2/π) of it, and forgets itself twice as soon
      const error = (4 * Math.sqrt(1 - 2 / Math.PI) * errorTrue) / Math.sqrt(6);
      return (
        low < meanAbsoluteOf(0, 4) && meanAbsoluteOf(0, 4) < high && high - low > 1.96 * error && high - low < 8 * error
      );
    },
  ],
  'rows.bias': [inRuns('e'), -9, (3 * 0.8 * errorTrue) / Math.sqrt(3)],
  'rows.biasInterval95': [inRuns('e'), holds(-9, (0.8 * errorTrue) / Math.sqrt(3))],
  'rows.insideCorridor': [inRuns('f'), 2 * normalBelow(1.5) - 1, 0.1],
  'rows.insideCorridorInterval95': [
    inRuns('f'),
    ([low, high]: readonly number[]) => {
      const share = 2 * normalBelow(1.5) - 1;
      return low > share - 0.2 && low < share && high > share && high < share + 0.1;
    },
  ],
  'rows.correctSide': [inRuns('f'), normalBelow(2.5 / 4), 0.12],
  'rows.correctSideInterval95': [
    inRuns('f'),
    ([low, high]: readonly number[]) => {
      const share = normalBelow(2.5 / 4);
      return low > share - 0.2 && low < share && high > share && high < share + 0.2;
    },
  ],
  'rows.insideAllowed': [inRuns('f'), 2 * normalBelow(1.5) - 1, 0.12],
  'rows.insideAllowedInterval95': [
    inRuns('f'),
    ([low, high]: readonly number[]) => {
      const share = 2 * normalBelow(1.5) - 1;
      return low > share - 0.25 && low < share && high > share - 0.05 && high < share + 0.12;
    },
  ],
  'rows.undecidedAllowed': [inRuns('f'), 0, 1e-4],
  'pairs.insideAllowed': [
    equalInRuns,
    ({ runs, verdict }: { runs: number; verdict: string }) => runs === 3 && verdict !== 'more',
  ],
  'rows.lineVerdict': [inRuns('e'), same('strayed')],
  'rows.strayedTo': [inRuns('e'), same('left')],
  'rows.lineLimit': [inRuns('e'), 6],
  'rows.sureSide': [inRuns('d'), same('right')],
  'rows.sideLimit': [inRuns('d'), 0.5],
  'order.overallPValue': [scatteredRuns.order.at(-1)!, (p: number) => p < 1e-4],
  'pairs.interval90': [equalInRuns, holds(0, (Math.SQRT2 * 0.8 * errorTrue) / Math.sqrt(3), 1.645)],
  // of the spread of one pair alone two thirds are expected of other runs, the rest is what they foretell, nothing
  'pairs.detectable': [summedPair, (8 / 3) * Math.expm1(foundAt(3, 3.182) * spreadOfRatio), 0.1],
  // with four runs (t of four degrees 2.776) more than ln(13 ÷ 8) is needed, with five (2.571) it is enough
  'pairs.moreRuns': [
    summedPair,
    (more: number) =>
      more === 2 &&
      foundAt(4, 2.776) * spreadOfRatio > Math.log(13 / 8) &&
      foundAt(5, 2.571) * spreadOfRatio < Math.log(13 / 8),
  ],
  'pairs.verdict': [summedPair, same('undecided')],
  'pairs.interval95': [
    summedPair,
    ([low, high]: readonly number[]) => low < 8 / 3 - 13 / 3 && 8 / 3 - 13 / 3 < 0 && high > 0 && high - low < 10,
  ],
  'pairs.signFlipPValue': [summedPair, 0.25],
  // t = ln(13 ÷ 8) √3 ÷ the spread = 2.40 of three degrees of freedom: 0.0958 two-sided, by Student's distribution in closed form
  'pairs.adjustedPValue': [summedPair, studentThree((Math.log(13 / 8) * Math.sqrt(3)) / spreadOfRatio), 0.01],
  'pairs.limits': [summedPair, reasons('includes-zero')],
};

const text = readFileSync(new URL('../../docs/questions.md', import.meta.url), 'utf8');
const lines = text.split('\n').filter((each) => each.startsWith('| ') && each.includes('?'));
const fieldsIn = (part = '') => [...part.matchAll(/`([\w.]+)`/g)].map(([, path]) => path);
// what stands after *summary* is a field of what combine returns
const named = [...new Set(lines.flatMap((each) => fieldsIn(each.split('*summary*')[0])))];
const ofSummary = [...new Set(lines.flatMap((each) => each.split('*summary*').slice(1).flatMap(fieldsIn)))];

test('every field named has its truth here, and every truth is of a field named', () => {
  expect(Object.keys(truths).sort()).toEqual([...named].sort());
  expect(Object.keys(summaryTruths).sort()).toEqual([...ofSummary].sort());
});

test.each([
  ...Object.entries(truths).map((entry) => ['an assessment', ...entry] as const),
  ...Object.entries(summaryTruths).map((entry) => ['a summary', ...entry] as const),
])('%s: %s', (_, path, [has, is, within = 1e-9]) => {
  const field = path.split('.').at(-1)!;
  expect(has).toHaveProperty(field);
  const value = (has as Record<string, unknown>)[field];
  if (typeof is === 'number')
    expect(Math.abs((value as number) - is), `${value}, not ${is}`).toBeLessThanOrEqual(within);
  else expect(is(value as never), JSON.stringify(value)?.slice(0, 300)).toBe(true);
});

/** Of a summary, what the questions on one run answer already. */
const OVER_RUNS_ALIKE = ['pairs.difference', 'pairs.floor', 'pairs.betweenRunSd'];

type Schema = { $ref?: string; properties?: Record<string, Schema>; items?: Schema; anyOf?: Schema[] };

test.each([
  ['assessment', named],
  ['testSummary', ofSummary],
] as const)('every figure of a row and of a pair of an %s answers a question', (document, answered) => {
  const { properties, definitions } = documentSchema(document) as Schema & { definitions: Record<string, Schema> };
  const fieldsOf = (schema: Schema | undefined): string[] => {
    if (schema?.$ref) return fieldsOf(definitions[schema.$ref.replace('#/definitions/', '')]);
    if (schema?.properties) return Object.keys(schema.properties);
    return schema ? fieldsOf(schema.items ?? schema.anyOf?.[0]) : [];
  };
  const plumbing =
    'recording receiver section runs byRun from to first second closer recordedLength referenceLength'.split(' ');
  const detail = ['pairs.pValue', 'pairs.effectiveSamples', ...(document === 'assessment' ? [] : OVER_RUNS_ALIKE)];
  for (const table of ['rows', 'pairs']) {
    const fields = fieldsOf(properties![table]);
    expect(fields.length).toBeGreaterThan(15);
    for (const field of fields) {
      if (plumbing.includes(field) || detail.includes(`${table}.${field}`)) continue;
      expect(answered, `${table}.${field}`).toContain(`${table}.${field}`);
    }
  }
});
