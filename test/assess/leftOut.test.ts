import {
  assess,
  combine,
  direct,
  type Exclusion,
  routeBuilder,
  routeFromLine,
  rowOf,
  type SectionExclusion,
} from 'datumline';
import { describe, expect, test } from 'vitest';
import { besideRoute, steadyFixes } from '../support/besideRoute';
import { correlatedOffsets, normals } from '../support/correlatedOffsets';

const start: [number, number] = [2.1, 61.4];
const on = (metres: number) => direct(start, 90, metres).position;
const route = routeBuilder({ name: 'three', halfWidth: 6 })
  .start(start)
  .section('west')
  .lineTo(on(300))
  .section('middle')
  .lineTo(on(600))
  .section('east')
  .lineTo(on(900))
  .build();
const [, middle] = route.sections;

const run = (seed: number, offsets: readonly number[], exclude: readonly (Exclusion | SectionExclusion)[] = []) => {
  const normal = normals(seed);
  const recordings = offsets.map((offset, i) => {
    const errors = correlatedOffsets(normal, { seconds: 901, correlation: 10, sigma: 1 });
    const fixes = steadyFixes({ from: 0, to: 900 }, (s) => offset + errors[Math.round(s)]);
    return { recording: besideRoute(route, `${'ab'[i]}`, fixes), receiver: 'ab'[i], run: `run ${seed}` };
  });
  return assess(route, recordings, { exclude });
};

describe('a section of which next to nothing is left after an exclusion', () => {
  const rounded = [{ from: middle.from, to: Math.floor(middle.to * 10) / 10 - 0.1, reason: 'road works' }];

  test('has no figure: a few centimetres are no run', () => {
    const assessment = run(1, [2, 4], rounded);
    for (const row of assessment.rows.filter(({ section }) => section === 'middle')) {
      expect(row).toMatchObject({
        ...{ meanAbsolute: null, interval95: null, bias: null, p90: null, insideCorridor: null, recordedLength: null },
        ...{ coverage: 0, covered: 0, referenceLength: 0, seconds: null, pace: null, foretold: null },
        ...{ alongTrackError: null, lineVerdict: 'undecided' },
      });
      expect(row.limits.map(({ reason }) => reason)).toEqual(['left-out']);
      expect(row.limits[0].message).toMatch(/left out/);
    }
    const pair = assessment.pairs.find(({ section }) => section === 'middle')!;
    expect(pair).toMatchObject({ difference: null, interval95: null, verdict: 'undecided', apart: null });
    expect(assessment.order.find(({ section }) => section === 'middle')!.entries).toEqual([]);
    // the other sections are judged as ever
    expect(rowOf(assessment, { recording: 'a', section: 'east' })!.meanAbsolute).toBeGreaterThan(1);
    expect(assessment.method.sentences.join(' ')).toContain('less than 20 % or 20 m, whichever is less, is left');
  });

  test('weighs nothing over runs', () => {
    const summary = combine([run(1, [2, 4], rounded), run(2, [2, 4]), run(3, [2, 4])]);
    const rows = (section: string) => summary.rows.filter((row) => row.section === section);
    for (const row of rows('middle')) {
      expect(row).toMatchObject({ runs: 2, byRun: [null, expect.any(Number), expect.any(Number)] });
      expect(row.meanAbsolute).toBeCloseTo((row.byRun[1]! + row.byRun[2]!) / 2, 9);
      expect(row.coverage).toBeGreaterThan(0.98);
    }
    for (const row of rows('east')) expect(row.runs).toBe(3);
    expect(summary.pairs.find(({ section }) => section === 'middle')!.runs).toBe(2);
  });

  test.each([
    ['20 m of 300', 300 - 20.5, 'figure'],
    ['less than 20 m of 300', 300 - 19.5, 'none'],
  ])('%s left', (_, taken, wanted) => {
    const exclude = [{ from: middle.from, to: middle.from + taken, reason: 'road works' }];
    const row = rowOf(run(1, [2], exclude), { recording: 'a', section: 'middle' })!;
    expect(row.meanAbsolute === null ? 'none' : 'figure').toBe(wanted);
  });

  test.each([
    ['a fifth of 30 m', 24 - 0.1, 'figure'],
    ['less than a fifth of 30 m', 24 + 0.1, 'none'],
  ])('%s left', (_, taken, wanted) => {
    const short = routeBuilder().start(start).lineTo(on(30)).build();
    const recording = besideRoute(
      short,
      'a',
      steadyFixes({ from: 0, to: 30 }, () => 1),
    );
    const exclude = [{ from: 0, to: taken, reason: 'road works' }];
    const row = rowOf(assess(short, [recording], { exclude }), { recording: 'a' })!;
    expect(row.meanAbsolute === null ? 'none' : 'figure').toBe(wanted);
  });
});

describe('an exclusion that names a section', () => {
  test('takes out that section', () => {
    const named = run(1, [2, 4], [{ section: 'middle', reason: 'road works' }]);
    const measured = run(1, [2, 4], [{ from: middle.from, to: middle.to, reason: 'road works' }]);
    expect(named).toEqual(measured);
    expect(named.route.excluded).toEqual([{ from: middle.from, to: middle.to, reason: 'road works' }]);
  });

  test('takes out every lap of it, or the one that is named', () => {
    const laps = routeBuilder()
      .start(start, { azimuth: 90 })
      .laps(2, (lap) => lap.section('oval', { halfWidth: 5 }).arc({ turn: 'left', radius: 60, sweep: 360 }))
      .build();
    const recording = besideRoute(
      laps,
      'a',
      steadyFixes({ from: 0, to: laps.length }, () => 1),
    );
    const excluded = (section: string) =>
      assess(laps, [recording], { exclude: [{ section, reason: 'x' }] }).route.excluded.map(({ from }) => from);
    expect(excluded('oval')).toEqual(laps.sections.map(({ from }) => from));
    expect(excluded('oval, lap 2')).toEqual([laps.sections[1].from]);
  });

  test.each([
    [
      { section: 'midle', reason: 'x' },
      route,
      "options.exclude[0].section must be 'west', 'middle' or 'east', not 'midle'",
    ],
    [{ section: 'middle', reason: ' ' }, route, 'options.exclude[0].reason must be stated in words'],
    [{ section: 'middle', from: 3, reason: 'x' }, route, 'options.exclude[0].from must be one of section, reason'],
    [{ section: 'x', reason: 'x' }, routeFromLine([start, on(900)]), 'options.exclude[0].section must be left away'],
  ])('%o is refused', (stretch, line, message) => {
    const recording = besideRoute(
      line,
      'a',
      steadyFixes({ from: 0, to: 900 }, () => 1),
    );
    expect(() => assess(line, [recording], { exclude: [stretch] })).toThrow(message);
  });
});
