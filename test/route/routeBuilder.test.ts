import { inverse } from 'datumline/geodesy';
import { pointAt, type RouteBuilder, type RouteOptions, routeBuilder, routeFromRecipe } from 'datumline/route';
import type { Polygon } from 'geojson';
import { expect, test } from 'vitest';

const everyCall = () =>
  routeBuilder({ name: 'every call', cornerRadius: 3, lateral95: 1, halfWidth: 6, maxSpacing: 10 })
    .start([179.999, -60])
    .provenance({
      source: 'orthophoto',
      date: '2024-06',
      lateral95: 0.5,
      frame: 'ETRS89',
      epoch: 2010.5,
      licence: 'CC0',
    })
    .section('quay', { halfWidth: 5, environment: 'open' })
    .lineBy({ azimuth: 90, distance: 200 })
    .mark('corner', { time: 1000 })
    .lineTo([-179.996, -60.002])
    .section('street')
    .follow(
      [
        [-179.995, -60.002],
        [-179.994, -60.0025],
        [-179.993, -60.002],
      ],
      { side: 'left', metres: 2, from: 10, to: 90 },
    )
    .laps(3, (lap) => lap.section('ring').arc({ turn: 'left', radius: 40, sweep: 360 }))
    .outAndBack(
      (out) => out.section('pier').lineBy({ azimuth: 45, distance: 300 }).lineBy({ azimuth: 90, distance: 100 }),
      {
        returnBeside: { side: 'left', metres: 8 },
      },
    )
    .moveOver({ side: 'left', metres: 8, over: 30 })
    .uTurn({ side: 'right', width: 6 })
    .section('first hundred', { from: 0, to: 100 })
    .build();

test('a recipe, written as JSON and read again, gives the identical route', () => {
  const route = everyCall();
  const again = routeFromRecipe(JSON.parse(JSON.stringify(route.recipe)));
  expect(again).toEqual(route);
  expect(again.lon).toEqual(route.lon);
});

test('sections in laps carry their lap, the way back of an out-and-back its own name', () => {
  expect(everyCall().sections.map(({ name, lap }) => [name, lap])).toEqual([
    ['first hundred', undefined],
    ['quay', undefined],
    ['street', undefined],
    ['ring', 1],
    ['ring', 2],
    ['ring', 3],
    ['pier', undefined],
    ['pier, back', undefined],
  ]);
});

test('positions handed out lie within [-180, 180), columns are unwrapped', () => {
  const route = everyCall();
  for (let i = 1; i < route.lon.length; i++) expect(Math.abs(route.lon[i] - route.lon[i - 1])).toBeLessThan(1);
  expect(pointAt(route, 150).position[0]).toBeLessThan(-179.9);
});

test('the length is the sum of the geodesics, no edge longer than the spacing', () => {
  const { lon, lat, alongTrack, length } = everyCall();
  let sum = 0;
  for (let i = 1; i < lon.length; i++) {
    const { distance } = inverse([lon[i - 1], lat[i - 1]], [lon[i], lat[i]]);
    sum += distance;
    expect(distance).toBeLessThan(10 + 1e-6);
    expect(Math.abs(alongTrack[i] - sum)).toBeLessThan(1e-6);
  }
  expect(alongTrack[0]).toBe(0);
  expect(alongTrack[alongTrack.length - 1]).toBe(length);
});

test('an authored arc knows its true length: with it the length is the closed form, however coarse the chords', () => {
  const [straight, radius] = [84.39, 36.5];
  const { length, arcs } = routeBuilder()
    .start([8, 0])
    .lineBy({ azimuth: 0, distance: straight })
    .arc({ turn: 'left', radius, sweep: 180 })
    .lineBy({ azimuth: 180, distance: straight })
    .arc({ turn: 'left', radius, sweep: 180 })
    .build();
  const closedForm = 2 * straight + 2 * Math.PI * radius;
  const drawn = arcs.reduce((sum, arc) => sum + arc.length - (arc.to - arc.from), length);
  expect(Math.abs(drawn - closedForm)).toBeLessThan(1e-6);
  // the chords are short by θ c² / 24 r, c² being 8 r s for a sagitta s: θ s / 3 at the most
  expect(closedForm - length).toBeGreaterThan(0.03);
  expect(closedForm - length).toBeLessThan((2 * Math.PI * 0.02) / 3 + 1e-4);
});

const line = [
  [5, 60],
  [5, 60.001],
  [5.001, 60.001],
];
const area: Polygon = {
  type: 'Polygon',
  coordinates: [
    [
      [5, 60],
      [5.1, 60],
      [5, 60.1],
      [5, 60],
    ],
  ],
};

const misuses: [string, (builder: RouteBuilder) => unknown, string, string][] = [
  [
    'an arc before start',
    (b) => b.arc({ turn: 'left', radius: 5, sweep: 90 }),
    'misplaced',
    'steps[0] arc must be after start',
  ],
  [
    'an arc without direction',
    (b) => b.start([5, 60]).arc({ turn: 'left', radius: 5, sweep: 90 }),
    'misplaced',
    'steps[1] arc must be after a leg',
  ],
  ['start twice', (b) => b.start([5, 60]).start([5, 61]), 'misplaced', 'steps[1] start must be the first leg'],
  [
    'a section twice',
    (b) => b.start([5, 60]).section('a').lineTo([5, 60.1]).section('a'),
    'misplaced',
    'steps[3] section name must be one not used before',
  ],
  [
    'a negative radius',
    (b) => b.start([5, 60]).lineTo([5, 60.1]).arc({ turn: 'left', radius: -5, sweep: 90 }),
    'out-of-range',
    'steps[2] arc radius must be a number above 0, not -5',
  ],
  [
    'no laps',
    (b) => b.start([5, 60]).laps(0, (lap) => lap.lineTo([5, 60.1])),
    'out-of-range',
    'steps[1] laps count must be a whole number of at least 1, not 0',
  ],
  ['an empty line', (b) => b.follow([]), 'too-few', 'steps[0] follow line must be a line of at least 2 points'],
  [
    'an unknown key',
    (b) => b.start([5, 60]).lineBy({ azimuth: 0, distance: 5, metres: 3 } as never),
    'unknown-key',
    'steps[1] lineBy metres must be one of',
  ],
  [
    'a call in a lap',
    (b) => b.start([5, 60]).laps(2, (lap) => lap.lineTo([5, 60.1]).uTurn({ side: 'up' as never, width: 5 })),
    'wrong-type',
    'steps[1].steps[1] uTurn side must be',
  ],
  [
    'not a number',
    (b) => b.start([5, 60]).lineBy({ azimuth: Number.NaN, distance: 5 }),
    'not-finite',
    'steps[1] lineBy azimuth must be a finite number, not NaN',
  ],
  ['swapped coordinates', (b) => b.start([5, 60]).lineTo([5, 95]), 'swapped', 'steps[1] lineTo position latitude'],
  ['no legs', (b) => b.start([5, 60]), 'too-few', 'steps must be a line of at least 2 points'],
  ['a line before start', (b) => b.lineTo([5, 60]), 'misplaced', 'steps[0] lineTo must be after start'],
  [
    'a leg before start',
    (b) => b.lineBy({ azimuth: 0, distance: 5 }),
    'misplaced',
    'steps[0] lineBy must be after start',
  ],
  [
    'a U-turn before start',
    (b) => b.uTurn({ side: 'left', width: 5 }),
    'misplaced',
    'steps[0] uTurn must be after start',
  ],
  [
    'moving over before start',
    (b) => b.moveOver({ side: 'left', metres: 5, over: 20 }),
    'misplaced',
    'steps[0] moveOver must be after start',
  ],
  [
    'moving over by nothing',
    (b) => b.start([5, 60]).lineTo([5, 60.1]).moveOver({ side: 'left', metres: 0, over: 20 }),
    'out-of-range',
    'steps[2] moveOver metres must be a number above 0, not 0',
  ],
  [
    'a leg without length',
    (b) => b.start([5, 60]).lineBy({ azimuth: 0, distance: 0 }),
    'out-of-range',
    'steps[1] lineBy distance must be a number above 0, not 0',
  ],
  [
    'a sweep of nothing',
    (b) => b.start([5, 60], { azimuth: 0 }).arc({ turn: 'left', radius: 5, sweep: 0 }),
    'out-of-range',
    'steps[1] arc sweep must be a number above 0, not 0',
  ],
  [
    'a U-turn without width',
    (b) => b.start([5, 60]).lineTo([5, 60.1]).uTurn({ side: 'left', width: -1 }),
    'out-of-range',
    'steps[2] uTurn width must be a number above 0, not -1',
  ],
  [
    'an offset without a side',
    (b) => b.follow(line, { metres: 3 }),
    'missing',
    'steps[0] follow side must be given with metres',
  ],
  [
    'a signed offset',
    (b) => b.follow(line, { side: 'left', metres: -3 }),
    'out-of-range',
    'steps[0] follow metres must be a number of at least 0, not -3',
  ],
  [
    'a stretch past the end',
    (b) => b.follow(line, { to: 1e5 }),
    'outside',
    'steps[0] follow to must be within the line',
  ],
  [
    'a stretch that ends before it begins',
    (b) => b.follow(line, { from: 90, to: 40 }),
    'outside',
    'steps[0] follow from must be less than 40, where it ends',
  ],
  [
    'a line of one point',
    (b) =>
      b.follow([
        [5, 60],
        [5, 60],
      ]),
    'too-few',
    'steps[0] follow line must be a line of',
  ],
  ['a line of other things', (b) => b.follow([[5, 60], 'x'] as never), 'wrong-type', 'steps[0] follow line[1] must be'],
  [
    'reverse by a word',
    (b) => b.follow(line, { reverse: 'yes' as never }),
    'wrong-type',
    'steps[0] follow reverse must',
  ],
  [
    'laps of a fraction',
    (b) => b.start([5, 60]).laps(1.5, (lap) => lap.lineTo([5, 60.1])),
    'out-of-range',
    'steps[1] laps count must be a whole number of at least 1, not 1.5',
  ],
  ['an empty lap', (b) => b.start([5, 60]).laps(2, () => {}), 'misplaced', 'steps[1] laps must be of at least one leg'],
  ['an empty way out', (b) => b.start([5, 60]).outAndBack(() => {}), 'misplaced', 'steps[1] outAndBack must be of at'],
  [
    'a way back without its distance',
    (b) => b.start([5, 60]).outAndBack((out) => out.lineTo([5, 60.1]), { returnBeside: { side: 'left' } as never }),
    'missing',
    'steps[1] outAndBack returnBeside.metres must be given',
  ],
  [
    'an end of no section',
    (b) => b.start([5, 60]).endSection(),
    'misplaced',
    'steps[1] endSection must be after section',
  ],
  [
    'a section without name',
    (b) => b.start([5, 60]).section(''),
    'wrong-type',
    'steps[1] section name must be a string',
  ],
  [
    'a section of no width',
    (b) => b.start([5, 60]).section('a', { halfWidth: 0 }),
    'out-of-range',
    'steps[1] section halfWidth must be a number above 0, not 0',
  ],
  [
    'a section from somewhere',
    (b) => b.start([5, 60]).section('a', { from: 5 }),
    'missing',
    'steps[1] section to must be given too',
  ],
  [
    'a section that ends before it begins',
    (b) => b.start([5, 60]).section('a', { from: 5, to: 3 }),
    'out-of-range',
    'steps[1] section to must be a number of at least 5, not 3',
  ],
  [
    'a section past the end',
    (b) => b.start([5, 60]).lineTo([5, 60.001]).section('a', { from: 5, to: 300 }),
    'outside',
    'steps[2] section to must be within the route',
  ],
  [
    'a section inside and from',
    (b) => b.start([5, 60]).section('a', { from: 5, to: 8, inside: area }),
    'misplaced',
    'steps[1] section inside must be without from and to',
  ],
  [
    'an area that is none',
    (b) => b.start([5, 60]).section('a', { inside: { type: 'Point' } as never }),
    'wrong-type',
    'steps[1] section inside must be a GeoJSON Polygon',
  ],
  [
    'an area of two points',
    (b) =>
      b.start([5, 60]).section('a', {
        inside: {
          ...area,
          coordinates: [
            [
              [5, 60],
              [5, 61],
            ],
          ],
        },
      }),
    'too-few',
    'steps[1] section inside ring 0 must be a ring of at least 4 positions',
  ],
  [
    'a mark without name',
    (b) => b.start([5, 60]).mark(7 as never),
    'wrong-type',
    'steps[1] mark name must be a string',
  ],
  [
    'a mark at no time',
    (b) => b.start([5, 60]).mark('a', { time: Number.NaN }),
    'not-finite',
    'steps[1] mark time must be a finite number',
  ],
  [
    'a mark off the globe',
    (b) => b.start([5, 60]).mark('a', { near: [5, 99] }),
    'swapped',
    'steps[1] mark near latitude must be within',
  ],
  [
    'a negative uncertainty',
    (b) => b.provenance({ lateral95: -1 }),
    'out-of-range',
    'steps[0] provenance lateral95 must be a number of at least 0, not -1',
  ],
  [
    'a frame that is no text',
    (b) => b.provenance({ frame: 3 as never }),
    'wrong-type',
    'steps[0] provenance frame must',
  ],
];

test.each(misuses)('%s is refused, naming the call', (_, author, reason, message) => {
  const build = () => {
    const builder = routeBuilder();
    author(builder);
    return builder.build();
  };
  expect(build).toThrow(expect.objectContaining({ name: 'InputError', reason }));
  expect(build).toThrow(message);
});

test.each<[RouteOptions, string, string]>([
  [{ maxSpacing: 0 }, 'out-of-range', 'options.maxSpacing must be a number above 0, not 0'],
  [{ maxSagitta: -1 }, 'out-of-range', 'options.maxSagitta must be a number above 0, not -1'],
  [{ cornerRadius: -1 }, 'out-of-range', 'options.cornerRadius must be a number of at least 0, not -1'],
  [{ lateral95: Number.NaN }, 'not-finite', 'options.lateral95 must be a finite number'],
  [{ halfWidth: 0 }, 'out-of-range', 'options.halfWidth must be a number above 0, not 0'],
  [{ name: 5 as never }, 'wrong-type', 'options.name must be a string'],
  [{ spacing: 5 } as never, 'unknown-key', 'options.spacing must be one of'],
  [{ maxSpacing: 1e-9 }, 'too-large', 'route must be up to'],
])('options %j are refused', (options, reason, message) => {
  const build = () => routeBuilder(options).start([5, 60]).lineTo([5, 60.001]).build();
  expect(build).toThrow(expect.objectContaining({ name: 'InputError', reason }));
  expect(build).toThrow(message);
});
