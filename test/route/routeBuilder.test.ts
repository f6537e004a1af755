import { inverse } from 'datumline/geodesy';
import { pointAt, type RouteBuilder, routeBuilder, routeFromRecipe } from 'datumline/route';
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
    'steps[1] lineBy.metres must be one of',
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
