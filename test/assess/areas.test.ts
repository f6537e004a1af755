import { type Area, assess, combine, direct, routeBuilder, rowOf } from 'datumline';
import { reportHtml } from 'datumline/report';
import type { Position } from 'geojson';
import { expect, test } from 'vitest';
import { besideRoute, steadyFixes } from '../support/besideRoute';

// 600 m eastward at the equator, where metres of the plane are metres; 3 m a second, one fix a second.
const start: Position = [20, 0];
const quay = routeBuilder({ name: 'quay', lateral95: 0.1 })
  .start(start)
  .section('west', { halfWidth: 10 })
  .lineBy({ azimuth: 90, distance: 300 })
  .section('east', { halfWidth: 10 })
  .lineBy({ azimuth: 90, distance: 300 })
  .build();
const beside = (name: string, right: (along: number) => number, begin = 0) =>
  besideRoute(quay, name, steadyFixes({ from: 0, to: 600 }, right, begin));

const at = (along: number, right: number): Position => direct(direct(start, 90, along).position, 180, right).position;
/** From so far along to so far, and from so far right to so far: left negative. */
const area = (name: string, kind: Area['kind'], [from, to]: number[], [a, b]: number[], doubt95 = 0): Area => ({
  name,
  kind,
  doubt95,
  geometry: {
    type: 'Polygon',
    coordinates: [[at(from, a), at(to, a), at(to, b), at(from, b), at(from, a)]],
  },
});
const road = area('road', 'allowed', [-20, 620], [-5, 5]);
const mill = area('mill', 'impossible', [100, 160], [6, 20]);
const shop = area('shop', 'impossible', [400, 430], [6, 20]);

/** 8 m right from 90 m to 210 m along and from 390 m to 450 m, else on the line; changes over 3 m. */
const out = (s: number) => ((s >= 90 && s <= 210) || (s >= 390 && s <= 450) ? 8 : 0);
const recordings = [beside('near', () => 1), beside('far', out)];
const assessment = assess(quay, recordings, { areas: [road, mill, shop] });
const row = (recording: string, section?: string) => rowOf(assessment, { recording, ...(section ? { section } : {}) });

test('who keeps to the road is inside, all of it', () => {
  expect(row('near')).toMatchObject({ insideAllowed: 1, undecidedAllowed: 0 });
  expect(row('near').outsideAllowed).toEqual({ metres: 0, seconds: 0 });
  expect(row('near').insideImpossible).toEqual({ metres: 0, seconds: 0, times: 0, undecided: 0 });
});

test('metres, seconds and times of the recorded line itself, by section', () => {
  // between fixes 3 m apart along and 8 m aside the line leaves the road at 5 of 8 and enters what begins at 6
  const slant = Math.hypot(3, 8);
  const outside = (126 - 6 + 2 * (3 / 8) * slant) as number;
  const west = row('far', 'west');
  expect(west.outsideAllowed!.metres).toBeCloseTo(outside, 2);
  expect(west.outsideAllowed!.seconds).toBeCloseTo(40 + (2 * 3) / 8, 2);
  expect(west.insideImpossible!).toMatchObject({ times: 1 });
  expect(west.insideImpossible!.metres).toBeCloseTo(60, 2);
  expect(west.insideImpossible!.seconds).toBeCloseTo(20, 2);
  const length = 300 - 6 + 2 * slant;
  expect(west.insideAllowed).toBeCloseTo(1 - outside / length, 4);
  const east = row('far', 'east');
  expect(east.insideImpossible!.metres).toBeCloseTo(30, 2);
  expect(row('far').insideImpossible).toMatchObject({ times: 2 });
  expect(row('far').insideImpossible!.metres).toBeCloseTo(90, 2);
  expect(row('far').outsideAllowed!.metres).toBeCloseTo(west.outsideAllowed!.metres + east.outsideAllowed!.metres, 6);
});

test('the same by area, those left out that were not come near', () => {
  expect(row('near').areas).toMatchObject([{ area: 'road', kind: 'allowed', inside: 1, times: null }]);
  const told = row('far').areas!;
  expect(told.map(({ area: name }) => name)).toEqual(['road', 'mill', 'shop']);
  expect(told[1]).toMatchObject({ kind: 'impossible', times: 1 });
  expect(told[1].metres).toBeCloseTo(60, 2);
  expect(row('far', 'west').areas!.map(({ area: name }) => name)).toEqual(['road', 'mill']);
});

test('passages, the longest first: where, how long, how deep', () => {
  const { passages } = assessment;
  expect(passages.map(({ number, recording, area: name }) => [number, recording, name])).toEqual([
    [1, 'far', null],
    [2, 'far', null],
    [3, 'far', 'mill'],
    [4, 'far', 'shop'],
  ]);
  const [away, , through] = passages;
  expect(away.deepest).toBeCloseTo(3, 2);
  expect(through.from).toBeCloseTo(100, 1);
  expect(through.to).toBeCloseTo(160, 1);
  expect(through.metres).toBeCloseTo(60, 1);
  expect(through.seconds).toBeCloseTo(20, 1);
  // 2 m in from the wall beside the road
  expect(through.deepest).toBeCloseTo(2, 2);
  expect(through.section).toBe('west');
  // on the route, not where the recording was
  expect(through.position[1]).toBe(0);
});

test('nearer to an edge than it is known to: undecided, not counted, and no end of a passage', () => {
  const doubted = assess(quay, recordings, { areas: [road, { ...mill, doubt95: 3 }] });
  const far = rowOf(doubted, { recording: 'far' });
  // 2 m in is within 3 m of the wall everywhere
  expect(far.insideImpossible).toMatchObject({ metres: 0, times: 0 });
  expect(far.insideImpossible!.undecided).toBeGreaterThan(60);
  expect(doubted.passages.filter(({ area: name }) => name !== null)).toEqual([]);
});

test('the line itself through a house, or off every road, is a warning of the route with its stretch', () => {
  const warned = assess(quay, recordings, {
    areas: [area('short road', 'allowed', [-20, 500], [-5, 5]), area('hall', 'impossible', [200, 250], [-9, 3])],
  }).warnings.filter(({ message }) => message.startsWith('The line itself'));
  expect(warned.map(({ reason, recording, message }) => [reason, recording, message])).toEqual([
    ['route', null, 'The line itself runs through “hall” for 50.0 m, up to 3.0 m from the edge.'],
    ['route', null, 'The line itself runs outside every allowed area for 100.0 m, up to 100.0 m from the edge.'],
  ]);
  expect(warned[0].from).toBeCloseTo(200, 3);
  expect(warned[1].to).toBeCloseTo(600, 3);
});

test('what is left out is left out of this too', () => {
  const excluded = assess(quay, recordings, {
    areas: [road, mill, shop],
    exclude: [{ from: 80, to: 220, reason: 'a detour' }],
  });
  expect(excluded.passages.map(({ area: name }) => name)).toEqual([null, 'shop']);
  expect(rowOf(excluded, { recording: 'far', section: 'west' }).insideImpossible).toMatchObject({
    metres: 0,
    times: 0,
  });
});

test('a break of the recording ends a passage; without times there are no seconds', () => {
  const [, far] = recordings;
  const { time: _, ...untimed } = far;
  const gapBefore = Uint8Array.from(far.gapBefore, (gap, i) => (i === 43 ? 1 : gap));
  const torn = assess(quay, [{ ...untimed, gapBefore }], { areas: [mill] });
  expect(torn.passages.length).toBe(2);
  expect(torn.passages.reduce((sum, { metres }) => sum + metres, 0)).toBeCloseTo(57, 1);
  expect(torn.passages[0].seconds).toBeNull();
  expect(torn.rows.at(-1)!.insideImpossible).toMatchObject({ seconds: null, times: 2 });
  expect(torn.rows.at(-1)!).toMatchObject({ insideAllowed: null, outsideAllowed: null, insideAllowedInterval95: null });
});

test('areas elsewhere, and what their document left out, are told', () => {
  const issues = [{ reason: 'no-kind', count: 3, place: 'features[1]', message: 'Polygons that are neither' }] as const;
  const elsewhere: Area = {
    ...mill,
    issues,
    geometry: {
      type: 'Polygon',
      coordinates: [
        [
          [30, 3],
          [30.1, 3],
          [30.1, 3.1],
          [30, 3],
        ],
      ],
    },
  };
  const { warnings } = assess(quay, recordings, { areas: [elsewhere] });
  expect(warnings.map(({ reason }) => reason)).toEqual(expect.arrayContaining(['areas-elsewhere', 'areas-left-out']));
  expect(warnings.find(({ reason }) => reason === 'areas-left-out')!.message).toBe(
    'Polygons that are neither: 3, the first at features[1].',
  );
});

test('without areas nothing is said, and nothing else changes with them', () => {
  const plain = assess(quay, recordings);
  expect(plain.route.areas).toBeNull();
  expect(plain.passages).toEqual([]);
  for (const one of plain.rows) {
    expect(one).toMatchObject({ insideAllowed: null, insideImpossible: null, areas: null });
    const with_ = assessment.rows.find(
      ({ recording, section }) => recording === one.recording && section === one.section,
    )!;
    expect(with_.meanAbsolute).toBe(one.meanAbsolute);
    expect(with_.interval95).toEqual(one.interval95);
  }
  expect(JSON.parse(JSON.stringify(assessment))).toEqual(assessment);
});

test('no position of a recording stands in what is published of its passages', () => {
  const text = JSON.stringify(assessment.passages);
  for (const [name, { lon, lat }] of recordings.map((one) => [one.name, one] as const)) {
    for (let i = 0; i < lon.length; i++) {
      if (Math.abs(lat[i]) < 1e-6) continue;
      expect(text.includes(lat[i].toFixed(7)), `${name} ${i}`).toBe(false);
    }
  }
});

test('over runs: the mean share, its interval, and who was surely more on the road', () => {
  // far is off it for 126 m and 66 m, in every run a little else
  const runs = [0, 1, 2, 3].map((k) =>
    assess(
      quay,
      [beside('near', () => 1), beside('far', (s) => out(s + 12 * k))].map((recording) => ({
        recording,
        run: `run ${k}`,
      })),
      { areas: [road, mill, shop] },
    ),
  );
  const shares = (recording: string) => runs.map((run) => rowOf(run, { recording }).insideAllowed!);
  const summary = combine(runs);
  const far = summary.rows.find(({ receiver, section }) => receiver === 'far' && section === null)!;
  const mean = shares('far').reduce((sum, share) => sum + share / 4, 0);
  expect(far.insideAllowed).toBeCloseTo(mean, 9);
  expect(far.insideAllowedInterval95![0]).toBeLessThan(mean);
  expect(far.insideAllowedInterval95![1]).toBeGreaterThan(mean);
  const pair = summary.pairs.find(({ section }) => section === null)!;
  const { difference, interval95, verdict, more, runs: count } = pair.insideAllowed!;
  expect(count).toBe(4);
  expect(Math.abs(difference)).toBeCloseTo(1 - mean, 9);
  expect({ verdict, more }).toEqual({ verdict: 'more', more: 'near' });
  // Student’s t of three degrees of freedom, 3.182 (Fisher and Yates, table III)
  const differences = shares('near').map((share, i) => share - shares('far')[i]);
  const sd = Math.sqrt(differences.reduce((sum, one) => sum + (one - (1 - mean)) ** 2, 0) / 3);
  expect(interval95![1] - interval95![0]).toBeCloseTo(2 * 3.182 * (sd / 2), 4);
  const alone = combine(runs.slice(0, 1)).pairs.find(({ section }) => section === null)!;
  expect(alone.insideAllowed).toMatchObject({ runs: 1, interval95: null, verdict: 'undecided', more: null });
});

test('over runs: two that were as much on the road are told so, in the report as well', () => {
  const runs = [0, 1, 2, 3].map((k) =>
    assess(
      quay,
      [beside('near', () => 1), beside('nearer', () => 0.5 + k / 20)].map((recording) => ({
        recording,
        run: `run ${k}`,
      })),
      { areas: [road, mill, shop] },
    ),
  );
  const summary = combine(runs);
  const pair = summary.pairs.find(({ section }) => section === null)!;
  expect(pair.insideAllowed).toMatchObject({ runs: 4, difference: 0, verdict: 'equivalent', more: null });
  expect(reportHtml(runs, { summary })).toContain('“near” and “nearer” were on allowed ground equally much.');
});
