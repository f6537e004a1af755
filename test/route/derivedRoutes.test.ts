import { readCsv, readGpx, readKml, writeCsv, writeGpx, writeKml } from 'datumline/formats';
import { inverse, lineLength } from 'datumline/geodesy';
import { frechet, hausdorff } from 'datumline/metrics';
import {
  joinRoutes,
  offsetRoute,
  pointAt,
  type Route,
  reverseRoute,
  routeBuilder,
  routeFromLine,
  routeFromRecipe,
  sliceRoute,
} from 'datumline/route';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { onEquator } from '../support/onEquator';
import { seeded, wanderingLine } from '../support/randomLine';

/** Lines at every latitude, across ±180° too. */
const routes = fc
  .record({ seed: fc.integer(), lon: fc.constantFrom(8, 179.9995), lat: fc.double({ min: -85, max: 85, noNaN: true }) })
  .map(({ seed, lon, lat }) =>
    routeFromLine(wanderingLine(seeded(seed), { start: [lon, lat], count: 6, step: 100 }), {
      maxSpacing: 7,
      lateral95: 0.5,
      name: 'invented',
    }),
  );
const share = fc.double({ min: 0.01, max: 0.99, noNaN: true });
const config = { seed: 21, numRuns: 40 };
const apart = (a: Route, at: number, b: Route, there: number) =>
  inverse(pointAt(a, at).position, pointAt(b, there).position).distance;
const roundTrip = (route: Route) => routeFromRecipe(JSON.parse(JSON.stringify(route.recipe)));

test('slicing keeps every place, and joining the slices gives the route again', () => {
  fc.assert(
    fc.property(routes, share, share, (route, cut, place) => {
      const at = cut * route.length;
      const [head, tail] = [sliceRoute(route, 0, at), sliceRoute(route, at, route.length)];
      expect(Math.abs(head.length + tail.length - route.length)).toBeLessThan(1e-9);
      expect(apart(head, place * at, route, place * at)).toBeLessThan(1e-6);
      expect(apart(tail, place * tail.length, route, at + place * tail.length)).toBeLessThan(1e-6);
      const joined = joinRoutes(head, tail, { gap: 'refuse' });
      expect(Math.abs(joined.length - route.length)).toBeLessThan(1e-9);
      expect(apart(joined, place * route.length, route, place * route.length)).toBeLessThan(1e-6);
      const vertices = Array.from(joined.lon, (lon, i) => [lon, joined.lat[i]]);
      expect(Math.abs(lineLength(vertices) - route.length)).toBeLessThan(1e-6);
      expect(roundTrip(joined)).toEqual(joined);
    }),
    config,
  );
});

test('reversing maps s to length − s, turns directions round, and twice is the route again', () => {
  fc.assert(
    fc.property(routes, share, (route, place) => {
      const back = reverseRoute(route);
      const at = place * route.length;
      expect(back.length).toBe(route.length);
      expect(apart(back, route.length - at, route, at)).toBeLessThan(1e-6);
      const turned = pointAt(back, route.length - at).azimuth - pointAt(route, at).azimuth;
      expect(Math.abs(Math.abs(((turned + 540) % 360) - 180) - 180)).toBeLessThan(1e-4);
      const again = reverseRoute(back);
      expect([...again.lat]).toEqual([...route.lat]);
      // longitudes are laid from the first vertex: another turn of 360° may round the last bit
      expect(Math.max(...Array.from(again.lon, (lon, i) => Math.abs(lon - route.lon[i])))).toBeLessThan(1e-12);
      expect(roundTrip(back)).toEqual(back);
    }),
    config,
  );
});

const sectioned = () =>
  routeBuilder({ lateral95: 0.5 })
    .start([8.1234567, 47.7654321])
    .section('first', { halfWidth: 4 })
    .lineBy({ azimuth: 20, distance: 100 })
    .mark('gate')
    .section('second', { environment: 'open' })
    .lineBy({ azimuth: 60, distance: 200 })
    .build();

test('a slice to the end as another engine has it, nanometres further on, is the slice to the end', () => {
  const route = sectioned();
  const recipe = structuredClone(sliceRoute(route, 40, route.length).recipe) as unknown as { steps: { to: number }[] };
  recipe.steps[0].to += 4e-10;
  const slice = routeFromRecipe(recipe as never);
  expect(slice.length).toBe(route.length - 40);
  expect(slice.recipe).toEqual(recipe);
  expect(() => sliceRoute(route, 40, route.length + 1e-4)).toThrow(expect.objectContaining({ reason: 'outside' }));
  expect(() => sliceRoute(route, route.length, route.length + 1e-9)).toThrow(
    expect.objectContaining({ reason: 'out-of-range' }),
  );
});

test('sections and marks go with their stretch: cut in slices, turned round in reverse, set apart in a join', () => {
  const places = ({ sections }: Route) =>
    sections.map(({ name, from, to }) => [name, Math.round(from), Math.round(to)]);
  const route = sectioned();
  const slice = sliceRoute(route, 40, 250);
  expect(places(slice)).toEqual([
    ['first', 0, 60],
    ['second', 60, 210],
  ]);
  expect(slice.marks.map(({ name, alongTrack }) => [name, Math.round(alongTrack)])).toEqual([['gate', 60]]);
  expect(places(reverseRoute(route))).toEqual([
    ['second', 0, 200],
    ['first', 200, 300],
  ]);
  const joined = joinRoutes(route, reverseRoute(route));
  expect(places(joined)).toEqual([
    ['first', 0, 100],
    ['second', 100, 300],
    ['second (2)', 300, 500],
    ['first (2)', 500, 600],
  ]);
});

test('a join bridges a gap by a line and says so, or refuses it', () => {
  const route = sectioned();
  const [head, tail] = [sliceRoute(route, 0, 80), sliceRoute(route, 120, 300)];
  const joined = joinRoutes(head, tail);
  const gap = inverse(pointAt(route, 80).position, pointAt(route, 120).position).distance;
  expect(Math.abs(joined.length - (80 + gap + 180))).toBeLessThan(1e-6);
  expect(joined.warnings.find(({ reason }) => reason === 'bridged-gap')).toMatchObject({ from: 80 });
  const refused = () => joinRoutes(head, tail, { gap: 'refuse' });
  expect(refused).toThrow(expect.objectContaining({ name: 'InputError', reason: 'misplaced' }));
  expect(refused).toThrow('start of the second route must be at the end of the first, 3');
});

test('laps are the lap so many times, each section with its lap', () => {
  const lap = (count: number) =>
    routeBuilder()
      .start([8, 60], { azimuth: 30 })
      .laps(count, (l) =>
        l
          .section('bend')
          .arc({ turn: 'left', radius: 40, sweep: 180 })
          .section('bow')
          .arc({ turn: 'left', radius: 40, sweep: 180 }),
      )
      .build();
  const [once, five] = [lap(1), lap(5)];
  expect(Math.abs(five.length - 5 * once.length)).toBeLessThan(1e-6);
  expect(five.sections.map(({ name, lap: number }) => `${name} ${number}`)).toEqual(
    [1, 2, 3, 4, 5].flatMap((number) => [`bend ${number}`, `bow ${number}`]),
  );
  expect(apart(once, 50, five, 50 + 3 * once.length)).toBeLessThan(1e-6);
  expect(five.arcs.length).toBe(10);
});

test('out and back on the same line is twice the way out; beside it, a semicircle more', () => {
  const out = (returnBeside?: { side: 'left' | 'right'; metres: number }) =>
    routeBuilder({ maxSagitta: 1e-5 })
      .start([8, 60])
      .outAndBack((b) => b.section('pier').lineBy({ azimuth: 70, distance: 300 }), returnBeside && { returnBeside })
      .build();
  const same = out();
  expect(Math.abs(same.length - 600)).toBeLessThan(1e-6);
  expect(apart(same, 120, same, 480)).toBeLessThan(1e-6);
  const beside = out({ side: 'left', metres: 8 });
  expect(Math.abs(beside.length - (600 + 4 * Math.PI))).toBeLessThan(1e-3);
  for (const at of [0, 100, 299]) {
    const other = 600 + 4 * Math.PI - at;
    expect(Math.abs(apart(beside, at, beside, Math.min(other, beside.length)) - 8)).toBeLessThan(1e-3);
  }
  expect(beside.sections.map(({ name, from, to }) => [name, Math.round(from), Math.round(to)])).toEqual([
    ['pier', 0, 300],
    ['pier, back', 300, 613], // the semicircle belongs to it
  ]);
});

test('one leg of a recipe is replaced, the others stay', () => {
  const planned = routeFromLine(onEquator([[0, 0]]).concat(onEquator([[100, 0]])));
  expect(planned.recipe.steps.length).toBe(1);
  const route = routeBuilder({ lateral95: 0.5 })
    .start(onEquator([[0, 0]])[0])
    .lineTo(onEquator([[100, 0]])[0])
    .section('missed turn')
    .lineTo(onEquator([[100, 100]])[0])
    .build();
  const steps = route.recipe.steps.slice();
  steps.splice(1, 1, { call: 'lineTo', position: onEquator([[150, 0]])[0] });
  const run = routeFromRecipe({ ...route.recipe, steps });
  expect(Math.abs(run.length - (150 + Math.hypot(50, 100)))).toBeLessThan(1e-6);
  expect(run.sections.map(({ name, from }) => [name, Math.round(from)])).toEqual([['missed turn', 150]]);
  expect(route.recipe.steps[1]).toEqual({ call: 'lineTo', position: onEquator([[100, 0]])[0] });
});

test('a slice that begins or ends at a corner rounded to next to nothing has no NaN (2026-11)', () => {
  for (const cornerRadius of [1e-9, 1e-7, 3e-7, 1e-6, 1e-3]) {
    for (const azimuth of [1, 90, 140, 179.99]) {
      const route = routeBuilder({ cornerRadius })
        .start([5, 60])
        .lineBy({ azimuth: 0, distance: 10 })
        .section('b')
        .lineBy({ azimuth, distance: 10 })
        .lineBy({ azimuth: 0, distance: 1e-7 })
        .section('c')
        .lineBy({ azimuth: 90, distance: 3 })
        .build();
      const places = [...route.alongTrack, ...route.sections.flatMap(({ from, to }) => [from, to])];
      for (const from of places) {
        for (const to of places) {
          if (!(from < to)) continue;
          const { lon, lat, alongTrack, length } = sliceRoute(route, from, to);
          expect([...lon, ...lat, ...alongTrack].every(Number.isFinite)).toBe(true);
          expect(alongTrack.every((at, i) => i === 0 || at >= alongTrack[i - 1])).toBe(true);
          expect(length).toBe(to - from);
        }
      }
    }
  }
});

test('a vertex said three times at the end of a route of columns is no NaN either', () => {
  const route = routeFromLine([
    [5, 60],
    [5.0001, 60],
  ]);
  const thrice = (column: Float64Array) => Float64Array.from([...column, ...Array(2).fill(column[column.length - 1])]);
  const { lon, lat, alongTrack, lateral95 } = route;
  const columns = { lon: thrice(lon), lat: thrice(lat), alongTrack: thrice(alongTrack), lateral95: thrice(lateral95) };
  const slice = sliceRoute({ ...route, ...columns }, 1, route.length);
  expect([...slice.lon, ...slice.lat].every(Number.isFinite)).toBe(true);
  expect(slice.lon[slice.lon.length - 1]).toBe(lon[lon.length - 1]);
});

test('a route round a pole, its longitudes run on beyond 540°, is taken by whatever takes a line', () => {
  const ring = routeFromLine(Array.from({ length: 60 }, (_, i) => [((i * 20 + 180) % 360) - 180, 89.999]));
  expect(Math.max(...ring.lon)).toBeGreaterThan(1000);
  const made = [ring, reverseRoute(ring), sliceRoute(ring, 1000, 2000), offsetRoute(ring, { side: 'left', metres: 3 })];
  for (const route of made) {
    expect(hausdorff(route, route).distance).toBe(0);
    expect(frechet(route, route)).toBeLessThan(1e-6);
    expect(Math.abs(lineLength(route) - route.length)).toBeLessThan(1e-6);
    expect(routeFromLine(route).length).toBeCloseTo(route.length, 6);
    const written = [readGpx(writeGpx(route)), readKml(writeKml(route)), readCsv(writeCsv(route))];
    for (const [read] of written) expect(Math.abs(lineLength(read) - route.length)).toBeLessThan(1e-3);
  }
  // but columns that leap are no line
  const leap = { lon: [0, 541], lat: [0, 0] };
  expect(() => lineLength(leap)).toThrow(expect.objectContaining({ argument: 'positions[1] longitude' }));
});

test('pointAt takes no route whose length is none, off its end neither', () => {
  const route = routeFromLine([
    [5, 60],
    [5.01, 60],
  ]);
  const forged = { ...route, length: {} as number };
  for (const alongTrack of [0, 100, 1e6]) {
    expect(() => pointAt(forged, alongTrack, { outside: 'clamp' })).toThrow(/^route must be a route/);
  }
});
