import { type Area, assess, combine, direct, InputError, recordingFrom, routeBuilder, routeFromLine } from 'datumline';
import { errorDistribution, planMap, reportHtml, ribbonMap, stripChart, toCsv, toGeoJson } from 'datumline/report';
import { describe, expect, test } from 'vitest';
import { documentShapes } from '../../schemas.config';
import { assessmentShapes } from '../../src/assess/assessmentShapes';
import { takenFiguresShapes } from '../../src/runs/takenFiguresShapes';
import type { Assessment } from '../../src/subpaths/assess';
import { timedAssessmentShapes } from '../../src/truth/timedAssessmentShapes';
import { inventedAssessment } from '../report/invented';
import { besideRoute, steadyFixes } from '../support/besideRoute';
import { seeded } from '../support/randomLine';

test('the shapes are those of the schema (npx tsx schemas.config.ts writes them)', () => {
  expect(assessmentShapes).toEqual(documentShapes('assessment'));
  expect(takenFiguresShapes).toEqual(documentShapes('takenFigures'));
  expect(timedAssessmentShapes).toEqual(documentShapes('timedAssessment'));
});

// as JSON holds it: that is how most are read back
const read = (): Assessment => JSON.parse(JSON.stringify(inventedAssessment()));

const renderers = { errorDistribution, planMap, reportHtml, ribbonMap, stripChart, toCsv, toGeoJson };
const takers: Record<string, (assessment: Assessment) => unknown> = {
  ...renderers,
  combine: (assessment) => combine([assessment, assessment]),
};

test.each(Object.entries(takers))('%s takes what was read back, members that it does not know too', (_, take) => {
  expect(take({ ...read(), notes: 'mine' } as Assessment)).toEqual(take(inventedAssessment()));
});

/** Members of those below that figures over runs are made of; the others `combine` passes by. */
const readByCombine = /^(rows(?!.*interval95)|recordings\[0\]\.name|route)/;

type Spoiling = (assessment: {
  // biome-ignore lint/suspicious/noExplicitAny: a document to be spoilt
  [key: string]: any;
}) => void;

test.each<[string, string, Spoiling]>([
  ['rows[1].bias', 'wrong-type', ({ rows }) => Object.assign(rows[1], { bias: '3' })],
  ['rows[0]', 'wrong-type', ({ rows }) => rows.splice(0, 1, null)],
  ['rows[0].interval95', 'too-few', ({ rows }) => Object.assign(rows[0], { interval95: [1] })],
  ['rows[0].coverage', 'out-of-range', ({ rows }) => Object.assign(rows[0], { coverage: 1.5 })],
  ['pairs[0].verdict', 'wrong-type', ({ pairs }) => Object.assign(pairs[0], { verdict: 'better' })],
  ['recordings[0].included', 'wrong-type', ({ recordings }) => Object.assign(recordings[0], { included: 1 })],
  ['recordings[0].name', 'wrong-type', ({ recordings }) => Object.assign(recordings[0], { name: undefined })],
  ['recordings[0].fixInterval', 'wrong-type', ({ recordings }) => Object.assign(recordings[0], { fixInterval: 5 })],
  ['excursions', 'wrong-type', (assessment) => Object.assign(assessment, { excursions: {} })],
  ['route.line.lon[0]', 'not-finite', ({ route }) => route.line.lon.splice(0, 1, Number.NaN)],
])('%s, which is not as it must be, is named (%s)', (place, reason, spoil) => {
  for (const [name, take] of Object.entries(takers)) {
    const spoilt = read();
    spoil(spoilt);
    if (name === 'combine' && !readByCombine.test(place)) {
      expect(() => take(spoilt), name).not.toThrow();
      continue;
    }
    const argument = `${name === 'combine' ? 'assessments[0]' : 'assessment'}.${place}`;
    expect(() => take(spoilt), name).toThrow(expect.objectContaining({ name: 'InputError', reason, argument }));
  }
});

describe('areas and passages', () => {
  const start = [2, 61];
  const across = (along: number) => [direct(start, 90, along).position, direct(start, 90, along + 40).position];
  const [a, b] = across(60);
  const areas: Area[] = [
    {
      name: 'mill',
      kind: 'impossible',
      geometry: {
        type: 'Polygon',
        coordinates: [[a, b, direct(b, 0, 20).position, direct(a, 0, 20).position, a]],
      },
    },
  ];
  const lane = routeBuilder().start([2, 61]).section('lane').lineBy({ azimuth: 90, distance: 200 }).build();
  const beside = besideRoute(
    lane,
    'A',
    steadyFixes({ from: 0, to: 200 }, () => -3),
  );
  const judged: Assessment = JSON.parse(JSON.stringify(assess(lane, [beside], { areas })));

  test.each<[string, string, Spoiling]>([
    ['route.areas[0].polygons[0][0].lat', 'wrong-type', ({ route }) => route.areas[0].polygons[0][0].lat.pop()],
    [
      'route.areas[0].polygons[0][0].lat[1]',
      'out-of-range',
      ({ route }) => route.areas[0].polygons[0][0].lat.splice(1, 1, 91),
    ],
    ['route.areas[0].polygons[0]', 'too-few', ({ route }) => route.areas[0].polygons[0].pop()],
    ['passages[0].recording', 'wrong-type', ({ passages }) => Object.assign(passages[0], { recording: 'B' })],
    ['passages[0].section', 'wrong-type', ({ passages }) => Object.assign(passages[0], { section: 'street' })],
    ['passages[0].to', 'out-of-range', ({ passages }) => Object.assign(passages[0], { to: 5 })],
    ['passages[0].to', 'out-of-range', ({ passages }) => Object.assign(passages[0], { to: 1e300 })],
    ['passages[0].deepestAt', 'out-of-range', ({ passages }) => Object.assign(passages[0], { deepestAt: 1e300 })],
    ['passages[0].position[1]', 'out-of-range', ({ passages }) => passages[0].position.splice(1, 1, 91)],
  ])('%s, which assess never returns, is named (%s)', (place, reason, spoil) => {
    expect(judged.passages).toMatchObject([{ area: 'mill', section: 'lane' }]);
    for (const [name, take] of Object.entries(renderers)) {
      expect(() => take(judged), name).not.toThrow();
      const spoilt = structuredClone(judged);
      spoil(spoilt);
      const argument = `assessment.${place}`;
      expect(() => take(spoilt), name).toThrow(expect.objectContaining({ name: 'InputError', reason, argument }));
    }
  });

  test('one member of them spoilt, wherever it is: taken, or refused as InputError, and nothing unknown drawn', () => {
    const random = seeded(1602);
    const refused = { yes: 0, no: 0 };
    for (let round = 0; round < 120; round++) {
      const spoilt = structuredClone(judged);
      const { route, passages, rows } = spoilt;
      const [holder, key] = spoiltPlace(random, [route.areas!, passages, rows[0].areas!, rows[0].insideImpossible!]);
      if (random() < 0.2) delete holder[key];
      else holder[key] = odd[Math.floor(random() * odd.length)];
      const drawers = { planMap, reportHtml, toCsv, toGeoJson };
      const name = (Object.keys(drawers) as (keyof typeof drawers)[])[round % 4];
      let drawn: unknown = '';
      try {
        drawn = drawers[name](spoilt);
        refused.no++;
      } catch (error) {
        expect(error, `${name}: ${key} = ${JSON.stringify(holder[key])}`).toBeInstanceOf(InputError);
        refused.yes++;
      }
      expect(JSON.stringify(drawn), name).not.toMatch(/NaN|undefined/);
    }
    expect(Math.min(refused.yes, refused.no)).toBeGreaterThan(15);
  });
});

/** A member somewhere in one of some values: what holds it, and its key. */
// biome-ignore lint/suspicious/noExplicitAny: a document to be spoilt
function spoiltPlace(random: () => number, within: readonly object[]): [holder: any, key: string] {
  const pick = <T>(list: readonly T[]) => list[Math.floor(random() * list.length)];
  // biome-ignore lint/suspicious/noExplicitAny: a document to be spoilt
  let holder: any = pick(within);
  let key = pick(Object.keys(holder));
  while (typeof holder[key] === 'object' && holder[key] !== null && random() < 0.85) {
    const keys = Object.keys(holder[key]);
    if (keys.length === 0) break;
    holder = holder[key];
    key = pick(keys);
  }
  return [holder, key];
}

const odd = [null, true, '', 'x', '\ud800', [], {}, [null], 0, -1, 0.5, 2, Number.NaN, Infinity, 1e300];

test('one member spoilt, wherever it is: taken, or refused as InputError', () => {
  const random = seeded(1601);
  const pick = <T>(list: readonly T[]) => list[Math.floor(random() * list.length)];
  const refused = { yes: 0, no: 0 };
  for (let round = 0; round < 150; round++) {
    const spoilt = read();
    // biome-ignore lint/suspicious/noExplicitAny: a document to be spoilt
    let holder: any = spoilt;
    let key = pick(Object.keys(holder));
    const path = [key];
    while (typeof holder[key] === 'object' && holder[key] !== null && random() < 0.85) {
      const keys = Object.keys(holder[key]);
      if (keys.length === 0) break;
      holder = holder[key];
      key = pick(keys);
      path.push(key);
    }
    const was = holder[key];
    if (random() < 0.2) delete holder[key];
    else if (Array.isArray(was) && random() < 0.5) holder[key] = [...was, ...was].slice(1);
    else holder[key] = typeof was === 'string' && random() < 0.5 ? 'another' : pick(odd);
    const name = pick(Object.keys(takers));
    try {
      takers[name](spoilt);
      refused.no++;
    } catch (error) {
      expect(error, `${name}: ${path.join('.')} = ${JSON.stringify(holder[key])}`).toBeInstanceOf(InputError);
      refused.yes++;
    }
  }
  expect(Math.min(refused.yes, refused.no)).toBeGreaterThan(25);
});

test('a recording of which nothing could be placed, and a route without sections, are as they must be', () => {
  const route = routeFromLine([
    [5, 60],
    [5.01, 60],
  ]);
  const nothing = assess(route, [recordingFrom({ lon: [80, 80.001], lat: [10, 10], name: 'far' })]);
  for (const take of Object.values(renderers)) expect(() => take(nothing)).not.toThrow();
});
