import { type Area, assess, direct, InputError, routeBuilder } from 'datumline';
import { planMap, reportHtml, reportPictures, toCsv, toGeoJson } from 'datumline/report';
import type { FeatureCollection, Position } from 'geojson';
import { JSDOM } from 'jsdom';
import { describe, expect, test } from 'vitest';
import { besideRoute, steadyFixes } from '../support/besideRoute';

const start: Position = [20, 0];
const quay = routeBuilder({ name: 'quay', lateral95: 0.1 })
  .start(start)
  .section('west', { halfWidth: 10 })
  .lineBy({ azimuth: 90, distance: 600 })
  .build();
const at = (along: number, right: number): Position => direct(direct(start, 90, along).position, 180, right).position;
const box = ([from, to]: number[], [a, b]: number[]): Position[] => [
  at(from, a),
  at(to, a),
  at(to, b),
  at(from, b),
  at(from, a),
];
const area = (name: string, kind: Area['kind'], along: number[], right: number[]): Area => ({
  name,
  kind,
  geometry: { type: 'Polygon', coordinates: [box(along, right)] },
});
const out = (s: number) => (s >= 90 && s <= 210 ? 8 : 0);
const recordings = [
  besideRoute(
    quay,
    'near',
    steadyFixes({ from: 0, to: 600 }, () => 1),
  ),
  besideRoute(quay, 'far', steadyFixes({ from: 0, to: 600 }, out)),
];
const areas = [area('road', 'allowed', [-20, 620], [-5, 5]), area('<mill>', 'impossible', [100, 160], [6, 20])];
const assessment = assess(quay, recordings, { areas });

const feature = (properties: object, type: string, coordinates: unknown) => ({
  type: 'Feature' as const,
  properties,
  geometry: { type, coordinates } as never,
});
const surroundings: FeatureCollection = {
  type: 'FeatureCollection',
  features: [
    feature({ kind: 'way', name: 'Long <Quay>' }, 'LineString', [at(-5000, -12), at(5000, -12)]),
    feature({ kind: 'house' }, 'Polygon', [box([300, 320], [12, 20])]),
    feature({ kind: 'water' }, 'MultiPolygon', [[box([0, 600], [30, 60])]]),
    feature({ kind: 'green' }, 'Polygon', [box([0, 100], [-60, -20])]),
    feature({}, 'Polygon', [box([400, 500], [-60, -20])]),
    // elsewhere, too small to be seen, and no shape at all
    feature({ kind: 'house' }, 'Polygon', [box([300_000, 300_010], [12, 20])]),
    feature({ kind: 'house' }, 'Polygon', [box([300, 300.05], [25, 25.05])]),
    feature({}, 'Point', at(0, 0)),
    { type: 'Feature', properties: null, geometry: null as never },
  ],
};
const page = (html: string) => new JSDOM(html).window.document;
const text = (node: Element | null) => node!.textContent!.replace(/\s+/g, ' ');

test('the findings say who went through what for how many metres and seconds, and how much each was on the road', () => {
  const said = text(page(reportHtml(assessment)).querySelector('#findings'));
  expect(said).toContain('“far” went through “<mill>” for 60.0 m, 20 s.');
  expect(said).toMatch(/“near” lay inside “road” on 100 % of its line/);
  expect(said).toMatch(
    /“far” lay inside “road” on 79 % of its line.*, outside of it once, at the longest for 12\d m, 4\d s\./,
  );
});

test('a picture shows it, with the house that was gone through', () => {
  const ground = page(reportHtml(assessment)).querySelector('#ground')!;
  const card = ground.querySelector('#passage-through-1')!;
  expect(text(card)).toMatch(/far through “<mill>” for 60.0 m, 20 s, up to 2.0 m from the edge/);
  expect(card.querySelector('svg .dl-impossible')!.getAttribute('d')).toMatch(/^M[\d. l-]+z$/);
  expect(card.querySelector('svg')!.getAttribute('aria-label')).toContain('far through “<mill>”');
  expect(text(ground.querySelector('table'))).toMatch(/through 60.0 m, 20 s, 1 time/);
  expect(ground.querySelector('#passage-outside-1')).not.toBeNull();
});

test('what lies in the corridor is seen through it', () => {
  for (const [svg, sheer] of [
    [planMap(assessment), true],
    [planMap(assess(quay, recordings)), false],
  ] as const) {
    const band = page(svg).querySelector('.dl-corridor')!;
    expect(band.classList.contains('dl-sheer')).toBe(sheer);
  }
  expect(planMap(assessment)).toMatch(/\.dl-sheer\{fill-opacity:\.\d/);
});

test('without areas there is no such part', () => {
  expect(page(reportHtml(assess(quay, recordings))).querySelector('#ground')).toBeNull();
});

test('surroundings are drawn by what they are, clipped to the plan, and their ways named', () => {
  const document = page(reportHtml(assessment, { surroundings, credit: 'A survey of <ours>, 2031' }));
  const plan = document.querySelector('.plan.wide-screen svg')!;
  for (const tone of ['way', 'house', 'water', 'green', 'plain', 'allowed', 'impossible']) {
    expect(plan.querySelectorAll(`.dl-${tone}`).length, tone).toBe(1);
  }
  const [, , width, height] = plan.getAttribute('viewBox')!.split(' ').map(Number);
  // the way runs 5 km to both sides: what is drawn of it ends at the frame
  const [x, , dx] = plan
    .querySelector('.dl-way')!
    .getAttribute('d')!
    .match(/-?[\d.]+/g)!
    .map(Number);
  expect(x).toBeGreaterThanOrEqual(-4);
  expect(x + dx).toBeLessThanOrEqual(width + 4);
  expect(height).toBeGreaterThan(0);
  // one house, not the one too small to be seen
  expect(plan.querySelector('.dl-house')!.getAttribute('d')!.match(/M/g)!.length).toBe(1);
  expect([...plan.querySelectorAll('.dl-way-name')].map(text)).toEqual(['Long <Quay>']);
  expect(text(document.querySelector('main'))).toContain('Surroundings: A survey of <ours>, 2031');
});

test('whose they are is printed from the document too, and warned of where nobody says', () => {
  const licensed = { ...surroundings, licence: 'Survey office, CC BY 4.0' };
  expect(reportHtml(assessment, { surroundings: licensed })).toContain('Surroundings: Survey office, CC BY 4.0');
  expect(reportHtml(assessment, { surroundings })).toContain('The surroundings state no licence and no source');
  expect(reportHtml(assessment)).not.toContain('surroundings state');
});

test.each([
  [{ type: 'Lines' }, 'options.surroundings must be a GeoJSON document'],
  [null, 'options.surroundings must be a GeoJSON document'],
  [{ type: 'FeatureCollection' }, 'options.surroundings.features must be an array'],
  [
    { type: 'FeatureCollection', features: [feature({}, 'LineString', [[95, 100]])] },
    'options.surroundings.features[0].geometry.coordinates[0] latitude must be within [-90, 90]',
  ],
])('surroundings that are none are refused: %j', (wrong, message) => {
  expect(() => reportHtml(assessment, { surroundings: wrong as never })).toThrow(InputError);
  expect(() => reportHtml(assessment, { surroundings: wrong as never })).toThrow(message);
});

test('a credit that says nothing is refused', () => {
  expect(() => reportHtml(assessment, { surroundings, credit: '' })).toThrow('options.credit must be a string');
});

describe('in pictures by themselves', () => {
  const svgOf = (svg: string) => page(svg).querySelector('svg')!;
  const paths = (svg: Element) =>
    [...svg.querySelectorAll('.dl-ground')].map((path) => [path.getAttribute('class'), path.getAttribute('d')]);
  const credit = 'A survey of <ours>, 2031';
  const narrow = routeBuilder({ lateral95: 0.1 })
    .start(start)
    .section('west', { halfWidth: 4 })
    .lineBy({ azimuth: 90, distance: 600 })
    .build();
  const strayed = assess(narrow, recordings, { areas });

  test('surroundings lie under a plan as they do in the report, with whose they are', () => {
    const inReport = page(reportHtml(assessment, { surroundings })).querySelector('.plan.wide-screen svg')!;
    const [, , width, height] = inReport.getAttribute('viewBox')!.split(' ').map(Number);
    const alone = svgOf(planMap(assessment, { surroundings, credit, width, height }));
    expect(paths(alone)).toEqual(paths(inReport));
    expect(paths(alone).map(([tone]) => tone)).toContain('dl-ground dl-way');
    expect(text(alone)).toContain('Surroundings: A survey of <ours>, 2031');
  });

  test('every plan of the pictures has them, the others have not', () => {
    const drawn = reportPictures(strayed, { surroundings, credit });
    for (const { name, svg } of drawn) {
      const isPlan = /plan|place/.test(name);
      expect(svg.includes('dl-ground dl-way'), name).toBe(isPlan);
      expect(svg.includes('A survey of &lt;ours&gt;, 2031'), name).toBe(isPlan);
    }
    const plan = (name: string) => drawn.find((one) => one.name === name)!.svg;
    expect(plan('plan')).toBe(planMap(strayed, { surroundings, credit, width: 1600, textSize: 20 }));
    expect(plan('place-1')).toBe(planMap(strayed, { surroundings, credit, width: 1600, textSize: 20, place: 1 }));
  });

  test('whose they are stands in the document, or is warned of; nothing is said where there are none', () => {
    const licensed = { ...surroundings, licence: 'Survey office, CC BY 4.0' };
    expect(text(svgOf(planMap(assessment, { surroundings: licensed })))).toContain(
      'Surroundings: Survey office, CC BY 4.0',
    );
    const warned = svgOf(planMap(assessment, { surroundings }));
    expect(text(warned)).toContain('The surroundings state no licence and no source.');
    expect(planMap(assessment, { credit })).toBe(planMap(assessment));
    expect(Number(warned.getAttribute('height'))).toBeGreaterThan(
      Number(svgOf(planMap(assessment)).getAttribute('height')),
    );
  });

  test('long words stand in lines within the picture, all of them', () => {
    const long = `${'survey of everything '.repeat(40)}${'x'.repeat(300)}`;
    const said = [...svgOf(planMap(assessment, { surroundings, credit: long, width: 400 })).querySelectorAll('text')]
      .map(text)
      .filter((line) => /survey|everything|xxx/.test(line));
    expect(said.join('').replaceAll(' ', '')).toBe(`Surroundings:${long}`.replaceAll(' ', ''));
    // at 11 px no letter of the usual faces is wider than 0.62 of that
    for (const line of said) expect(line.length * 0.62 * 11).toBeLessThanOrEqual(400);
  });

  test('what a finer picture can show of them it shows: the pixel is that of the picture', () => {
    const houses = feature({ kind: 'house' }, 'Polygon', [box([300, 301], [12, 13])]);
    const coarse = planMap(assessment, { surroundings: houses, width: 600 });
    const fine = planMap(assessment, { surroundings: houses, width: 1200, textSize: 24 });
    expect(coarse).not.toContain('dl-ground dl-house');
    expect(fine).toContain('dl-ground dl-house');
  });

  test('what is some pixels small is a square where it lies, once', () => {
    // 900 px for 660 m: a house of 1 m is 1.4 px
    const house = (along: number, right: number) =>
      feature({ kind: 'house' }, 'Polygon', [box([along, along + 1], [right, right + 1])]);
    const features = [house(300, 12), house(300, 12), house(100, 12), house(100, 30)];
    const svg = svgOf(planMap(assessment, { surroundings: { type: 'FeatureCollection', features } }));
    const { d, size } = { d: svg.querySelector('.dl-house')!.getAttribute('d')!, size: 900 / 660 };
    let [x, y] = [0, 0];
    const corners = [...d.matchAll(/[Mm]([\d.]+|-[\d.]+) ?(-?[\d.]+)h([\d.]+)v\3h-\3/g)].map(([, dx, dy, side]) => {
      [x, y] = [x + Number(dx), y + Number(dy)];
      const corner = [x, y, Number(side)];
      y += Number(side);
      return corner;
    });
    const middle =
      Number(
        svg
          .querySelector('.dl-allowed')!
          .getAttribute('d')!
          .match(/^M[-\d.]+ ([\d.]+)/)![1],
      ) +
      5 * size;
    const expected = [
      [100, 12],
      [300, 12],
      [100, 30],
    ].map(([along, right]) => [(along + 30) * size, middle + right * size]);
    expect(corners.length).toBe(3);
    for (const [i, [left, top, side]] of corners.entries()) {
      expect(Math.abs(left - expected[i][0])).toBeLessThan(1.1);
      expect(Math.abs(top - expected[i][1])).toBeLessThan(1.6);
      expect(side).toBe(1);
    }
  });

  test('what is no surroundings is refused by name', () => {
    for (const draw of [planMap, reportPictures]) {
      expect(() => draw(assessment, { surroundings: { type: 'Lines' } as never })).toThrow(
        'options.surroundings must be a GeoJSON document',
      );
      expect(() => draw(assessment, { surroundings: null as never })).toThrow(InputError);
      expect(() => draw(assessment, { surroundings, credit: '' })).toThrow('options.credit must be a string');
    }
  });
});

test('areas are drawn on every map; passages stand in the table and on the map of places', () => {
  expect(planMap(assessment)).toContain('dl-impossible');
  const lines = toCsv(assessment).split('\r\n');
  const value = (metric: string) =>
    Number(
      lines
        .find((line) => line.includes(`,far,`) && line.includes(`,${metric},`) && line.includes(',west,'))!
        .split(',')[8],
    );
  expect(value('insideImpossible')).toBeCloseTo(60, 1);
  expect(value('insideImpossibleSeconds')).toBeCloseTo(20, 1);
  expect(value('insideAllowed')).toBeGreaterThan(0.7);
  const passages = toGeoJson(assessment).features.flatMap(({ properties, geometry }) =>
    properties.kind === 'passage' ? [{ properties, geometry }] : [],
  );
  expect(passages.map(({ properties }) => [properties.area, properties.receiver])).toEqual([
    [null, 'far'],
    ['<mill>', 'far'],
  ]);
  // beside the deepest place, on the route
  for (const { geometry } of passages) expect((geometry as { coordinates: Position }).coordinates[1]).toBe(0);
});
