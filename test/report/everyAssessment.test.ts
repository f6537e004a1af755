import {
  type Assessment,
  assess,
  combine,
  direct,
  pointAt,
  type Recording,
  type Route,
  routeBuilder,
  routeFromLine,
} from 'datumline';
import { errorDistribution, planMap, reportHtml, ribbonMap, stripChart, toCsv, toGeoJson } from 'datumline/report';
import fc from 'fast-check';
import { JSDOM } from 'jsdom';
import { expect, test } from 'vitest';
import { recordingOf } from '../assess/recordingOf';
import { schemaJudge } from '../support/schemaJudge';

const assessmentFaults = schemaJudge('assessment');
const summaryFaults = schemaJudge('testSummary');

/** A route anywhere, poles and the ±180° meridian included, of no length to some kilometres, of no section to 200. */
const routes: fc.Arbitrary<Route> = fc
  .record({
    start: fc.tuple(
      fc.oneof(fc.double({ min: -180, max: 179, noNaN: true }), fc.constantFrom(179.9999, -180, 0)),
      fc.oneof(fc.double({ min: -89, max: 89, noNaN: true }), fc.constantFrom(0, 89.9995)),
    ),
    legs: fc.array(
      fc.record({
        azimuth: fc.integer({ min: 0, max: 359 }),
        distance: fc.constantFrom(0.001, 0.5, 3, 40, 150),
        section: fc.option(fc.constantFrom('a', 'b', 'c <d>', '')),
        halfWidth: fc.option(fc.constantFrom(0.5, 5, 80)),
        mark: fc.boolean(),
      }),
      { minLength: 1, maxLength: 8 },
    ),
    many: fc.constantFrom(0, 0, 0, 0, 0, 0, 200),
    laps: fc.constantFrom(1, 1, 3),
    lateral95: fc.option(fc.constantFrom(0, 0.3, 20)),
    still: fc.constantFrom(false, false, false, false, true),
    name: fc.option(fc.constantFrom('<script>', 'quay')),
  })
  .map(({ start, legs, many, laps, lateral95, still, name }) => {
    const stated = name === null ? {} : { name };
    if (still) return routeFromLine([start, direct(start, 90, 1e-3).position], stated);
    const builder = routeBuilder({ ...stated, ...(lateral95 === null ? {} : { lateral95 }) }).start(start);
    const used = new Set<string>();
    builder.laps(laps, (lap) => {
      legs.forEach(({ azimuth, distance, section, halfWidth, mark }, i) => {
        if (many === 0 && section !== null && !used.has(`${section}${i}`)) {
          lap.section(`${section}${i}`, halfWidth === null ? {} : { halfWidth });
        }
        if (mark) lap.mark(`mark ${i}`);
        lap.lineBy({ azimuth, distance });
      });
      if (laps > 1) lap.lineTo(start);
    });
    for (let k = 0; k < many; k++) builder.section(`piece ${k}`, { halfWidth: 4 }).lineBy({ azimuth: 90, distance: 2 });
    return builder.build();
  });

/** What was recorded of it: all along, a part, elsewhere, one fix, standing, far off, back and forth, with holes in its columns. */
const recordings = (route: Route): fc.Arbitrary<Recording> =>
  fc
    .record({
      kind: fc.constantFrom(
        'along',
        'along',
        'along',
        'part',
        'elsewhere',
        'one fix',
        'standing',
        'far',
        'back',
        'unplaced',
      ),
      aside: fc.constantFrom(0, 0.5, -4, 30, 90),
      noise: fc.array(fc.double({ min: -6, max: 6, noNaN: true }), { minLength: 5, maxLength: 5 }),
      fixes: fc.integer({ min: 2, max: 90 }),
      times: fc.constantFrom('each second', 'none', 'some', 'one instant', 'falling', 'over days'),
      gaps: fc.array(fc.nat(89), { maxLength: 3 }),
      holes: fc.oneof({ weight: 6, arbitrary: fc.constant<number[]>([]) }, fc.array(fc.nat(89), { maxLength: 2 })),
      name: fc.constantFrom('A', 'B', '"><b>', ''),
    })
    .map(({ kind, aside, noise, fixes, times, gaps, holes, name }) => {
      const n = kind === 'one fix' ? 1 : fixes;
      const positions = Array.from({ length: n }, (_, i): [number, number] => {
        const share = n === 1 ? 0.5 : i / (n - 1);
        const along =
          { part: 0.3 + 0.2 * share, standing: 0.5, back: Math.abs(1 - 2 * share) }[kind as string] ?? share;
        const { position, azimuth } = pointAt(route, Math.min(along * route.length, route.length));
        const off = aside + noise[i % 5] + (kind === 'far' && share > 0.4 && share < 0.6 ? 470 : 0);
        const [lon, lat] = direct(position, azimuth + 90, off).position;
        if (kind === 'unplaced' || (holes.includes(i) && n > 1)) return [Number.NaN, Number.NaN];
        return kind === 'elsewhere' ? [lon > 0 ? lon - 90 : lon + 90, -lat / 2] : [lon, lat];
      });
      const clock: Record<string, ((i: number) => number) | undefined> = {
        'each second': (i) => i,
        some: (i) => (i % 3 === 1 ? Number.NaN : 7 * i),
        'one instant': () => 5,
        falling: (i) => -i,
        'over days': (i) => i * 5000,
      };
      const time = clock[times];
      return recordingOf(positions, {
        name,
        times: time ? positions.map((_, i) => time(i)) : null,
        gaps: gaps.filter((i) => i < n),
      });
    });

const assessments: fc.Arbitrary<Assessment[]> = routes.chain((route) =>
  fc
    .record({
      runs: fc.array(
        fc.array(
          fc.record({
            recording: recordings(route),
            receiver: fc.option(fc.constantFrom('X', 'Y'), { nil: undefined }),
            placement: fc.option(fc.constantFrom('left', 'right'), { nil: undefined }),
            run: fc.option(fc.constantFrom('1', '2'), { nil: undefined }),
          }),
          { minLength: 1, maxLength: 4 },
        ),
        { minLength: 1, maxLength: 2 },
      ),
      exclude: fc.constantFrom<'none' | 'half' | 'all'>('none', 'none', 'half', 'all'),
      pace: fc.constantFrom<'shared' | 'apart'>('shared', 'apart'),
      decoy: fc.boolean(),
    })
    .map(({ runs, exclude, pace, decoy }) => {
      const to = exclude === 'half' ? route.length / 2 : route.length;
      const [first, last] = [0, route.length].map((s) => direct(pointAt(route, s).position, 10, 5).position);
      return runs.map((entries) =>
        assess(route, entries, {
          pace,
          ...(exclude === 'none' ? {} : { exclude: [{ from: 0, to, reason: 'a <parade>' }] }),
          ...(decoy
            ? { decoy: [first, direct(last, 45, 20).position], centreline: [first, direct(last, 0, 9).position] }
            : {}),
        }),
      );
    }),
);

/** Nothing but numbers where numbers are, in markup and in tables. */
const wrongIn = (text: string): string | undefined =>
  // a recording that holds none says so
  /.{0,60}(?:NaN|undefined|Infinity|\[object).{0,20}/s.exec(
    text.replaceAll('must be a finite number, not NaN', ''),
  )?.[0];
const parse = new JSDOM('').window.DOMParser;

function expectPicture(svg: string): void {
  expect(wrongIn(svg.replace(/<style>.*?<\/style>/s, ''))).toBeUndefined();
  const document = new parse().parseFromString(svg, 'image/svg+xml');
  expect(document.querySelector('parsererror')?.textContent).toBeUndefined();
}

function expectDrawn(given: Assessment[]): void {
  for (const assessment of given) {
    expect(assessmentFaults(assessment)).toEqual([]);
    expect(JSON.parse(JSON.stringify(assessment))).toEqual(assessment);
  }
  const several = given.length > 1;
  const summary = several ? combine(given) : undefined;
  if (summary) {
    expect(summaryFaults(summary)).toEqual([]);
    expect(JSON.parse(JSON.stringify(summary))).toEqual(summary);
  }
  for (const picture of [planMap, ribbonMap, stripChart, errorDistribution]) expectPicture(picture(given));
  for (const { name } of given[0].route.sections.slice(0, 2)) {
    for (const picture of [planMap, stripChart, errorDistribution]) expectPicture(picture(given, { section: name }));
  }
  expectPicture(stripChart(given, { panels: 'run' }));
  const page = reportHtml(given, summary ? { summary } : {});
  expect(wrongIn(page.replace(/<(script|style)[^>]*>.*?<\/\1>/gs, ''))).toBeUndefined();
  expect(() => JSON.parse(/<script[^>]*id="walk-data"[^>]*>(.*?)<\/script>/s.exec(page)![1])).not.toThrow();
  expect(wrongIn(toCsv(given))).toBeUndefined();
  const map = toGeoJson(given);
  expect(JSON.parse(JSON.stringify(map))).toEqual(map);
}

test('whatever an assessment can be fits its schema, is drawn, and written', () => {
  fc.assert(fc.property(assessments, expectDrawn), {
    numRuns: Number(process.env.DATUMLINE_RUNS ?? 15),
    // others with DATUMLINE_SEED
    seed: Number(process.env.DATUMLINE_SEED ?? 16),
    endOnFailure: true,
  });
});
