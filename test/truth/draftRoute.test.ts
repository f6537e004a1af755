import {
  assess,
  direct,
  draftRoute,
  hausdorff,
  indexRoute,
  joinRoutes,
  offsetRoute,
  type Recording,
  type Route,
  reverseRoute,
  routeFromGeoJson,
  routeFromLine,
  routeFromRecipe,
  routeToGeoJson,
  sliceRoute,
} from 'datumline';
import { expect, test } from 'vitest';
import { recordingOf, shapes, told } from '../../bench/growth/inputs';
import { fitPolyline } from '../../src/truth/fitPolyline';
import { type PlanePoint, planeRoute } from '../support/planeRoute';
import { schemaJudge } from '../support/schemaJudge';
import { simulateRun } from '../support/simulateRun';

const line = (...points: PlanePoint[]) => planeRoute([5, 52], points);
/** Four straights between right angles. */
const way = line([0, 0], [900, 0], [900, 700], [1800, 700], [1800, 0]);
const corners = [900, 1600, 2500];
const six = (seed: number, route: Route = way): Recording[] =>
  simulateRun(route, { seed, receivers: Array.from({ length: 6 }, () => ({ sigma: 4 })) }).map(
    ({ recording }) => recording,
  );

test('six recordings of σ 4 m that persists for 30 s: within 2.5 m (95 %) on straights, 4 m at corners', () => {
  const straights: number[] = [];
  const atCorners: number[] = [];
  // seeds that nothing was chosen by
  for (let seed = 8001; seed <= 8020; seed++) {
    const draft = draftRoute(six(seed));
    const index = indexRoute(draft);
    for (let s = 20; s < way.length - 20; s += 5) {
      const i = way.alongTrack.findIndex((metres) => metres >= s);
      const { distance } = index.nearest([way.lon[i], way.lat[i]])!;
      (corners.some((corner) => Math.abs(corner - s) < 30) ? atCorners : straights).push(distance);
    }
    // four straights are five vertices, and a few that noise makes
    expect(draft.lon.length).toBeLessThan(16);
    expect(draft.lateral95[0]).toBeGreaterThan(2);
    expect(draft.lateral95[0]).toBeLessThan(5);
  }
  const share95 = (values: number[]) => values.sort((a, b) => a - b)[Math.floor(0.95 * values.length)];
  expect(share95(straights)).toBeLessThan(2.5);
  expect(share95(atCorners)).toBeLessThan(4);
});

test('laps are kept apart', () => {
  const lap: PlanePoint[] = [
    [0, 0],
    [300, 0],
    [300, 200],
    [0, 200],
  ];
  const laps = line(...lap, ...lap, ...lap, [0, 0]);
  const draft = draftRoute(six(31, laps));
  expect(Math.abs(draft.length / laps.length - 1)).toBeLessThan(0.03);
});

test('from one recording it is that recording thinned, and states no uncertainty', () => {
  const [one] = six(5);
  const draft = draftRoute([one], { tolerance: 3 });
  expect(hausdorff(one, draft).distance).toBeLessThan(3 + 1e-3);
  expect(Array.from(draft.lateral95).every(Number.isNaN)).toBe(true);
  expect(draft.lon.length).toBeLessThan(one.lon.length / 4);
});

test('the line of least squares through places of a line of corners is that line', () => {
  const places = [
    ...Array.from({ length: 50 }, (_, i) => ({ x: i, y: 0 })),
    ...Array.from({ length: 51 }, (_, i) => ({ x: 50, y: i })),
  ];
  const vertices = fitPolyline(places, 1);
  expect(vertices.length).toBe(3);
  [
    [0, 0],
    [50, 0],
    [50, 50],
  ].forEach(([x, y], i) => {
    expect(Math.hypot(vertices[i][0] - x, vertices[i][1] - y)).toBeLessThan(1e-9);
  });
});

test('judged by the draft of it a recording has no side and no verdict; by one corrected, it has', () => {
  const recordings = six(77).slice(0, 3);
  const draft = draftRoute(recordings);
  const other = six(78)[0];
  const told = assess(draft, [...recordings, { ...other, name: 'another' }]);
  const own = (name: string) => name !== 'another';
  for (const row of told.rows.filter(({ recording }) => own(recording))) {
    expect(row).toMatchObject({
      bias: null,
      biasInWords: null,
      sureSide: null,
      strayedTo: null,
      lineVerdict: 'undecided',
    });
    expect(row.limits.map(({ reason }) => reason)).toContain('own-draft');
    expect(row.meanAbsolute).toBeGreaterThan(0);
  }
  expect(told.rows.find(({ recording }) => !own(recording))!.bias).not.toBeNull();
  for (const pair of told.pairs) {
    expect(pair.verdict).toBe('undecided');
    expect(pair.difference).not.toBeNull();
  }
  expect(told.warnings.filter(({ reason }) => reason === 'own-draft').map(({ recording }) => recording)).toEqual(
    recordings.map(({ name }) => name),
  );
  expect(told.warnings.find(({ reason }) => reason === 'drafted')!.message).toMatch(/not corrected since/);
  expect(schemaJudge('assessment')(told)).toEqual([]);

  const guarded = (route: Route) =>
    assess(route, recordings).warnings.filter(({ reason }) => reason === 'own-draft').length;
  expect(guarded(reverseRoute(draft))).toBe(3);
  expect(guarded(sliceRoute(draft, 200, 1500))).toBe(3);
  const end: [number, number] = [draft.lon.at(-1)!, draft.lat.at(-1)!];
  expect(guarded(joinRoutes(draft, routeFromLine([end, direct(end, 90, 200).position])))).toBe(3);
  expect(guarded(offsetRoute(draft, { side: 'left', metres: 1 }))).toBe(3);
  const { recipe } = draft;
  const moved = (metres: number) =>
    routeFromRecipe({
      ...recipe,
      steps: recipe.steps.map((step) =>
        step.call === 'follow'
          ? {
              ...step,
              line: step.line.map((position, i) => (i === 1 ? direct(position, 45, metres).position : position)),
            }
          : step,
      ),
    });
  expect(guarded(moved(1.5))).toBe(3);
  const corrected = assess(moved(3), recordings);
  expect(corrected.warnings.map(({ reason }) => reason)).not.toContain('own-draft');
  expect(corrected.warnings.find(({ reason }) => reason === 'drafted')!.message).toMatch(/corrected by hand since/);
  expect(corrected.rows[0].bias).not.toBeNull();
});

test('written as GeoJSON, moved in an editor and read back it still knows what it was drafted from', () => {
  const recordings = six(79).slice(0, 2);
  const draft = draftRoute(recordings);
  const collection = routeToGeoJson(draft);
  const [leg] = collection.features;
  expect((leg.geometry as { coordinates: unknown[] }).coordinates.length).toBe(draft.lon.length);
  expect(routeFromGeoJson(collection).recipe).toEqual(draft.recipe);
  // an editor that drops what it doesn't know, and keeps properties as text
  const edited = (north: number) => {
    const coordinates = (leg.geometry as unknown as { coordinates: [number, number][] }).coordinates.map(
      (position, i) => (i === 1 ? direct(position, 0, north).position : position),
    );
    const properties = { ...leg.properties, drafted: JSON.stringify(leg.properties!.drafted) };
    return routeFromGeoJson({
      type: 'FeatureCollection',
      features: [{ type: 'Feature', properties, geometry: { type: 'LineString', coordinates } }],
    });
  };
  const reasons = (route: Route) => assess(route, recordings).warnings.map(({ reason }) => reason);
  expect(reasons(edited(0.5))).toContain('own-draft');
  expect(reasons(edited(10))).not.toContain('own-draft');
  expect(reasons(edited(10))).toContain('drafted');
});

test('over the ±180° meridian a draft is the draft of elsewhere', () => {
  const over = planeRoute(
    [179.998, -16.5],
    [
      [0, 0],
      [400, 0],
      [400, 300],
    ],
  );
  const draft = draftRoute(six(81, over));
  expect(Math.abs(draft.length / over.length - 1)).toBeLessThan(0.03);
  const index = indexRoute(draft);
  for (let i = 0; i < over.lon.length; i++) {
    expect(index.nearest([over.lon[i], over.lat[i]])!.distance).toBeLessThan(12);
  }
});

test('what can’t be drafted from is refused by name', () => {
  const recordings = six(80);
  expect(() => draftRoute([])).toThrow(/^recordings must be at least 1 recording/);
  expect(() => draftRoute([recordings[0], {} as never])).toThrow(/^recordings\[1\] must be a recording/);
  expect(() => draftRoute(recordings, { tolerance: 0 })).toThrow(/^options\.tolerance must be a number above 0/);
  const still = { ...recordings[0], lon: recordings[0].lon.map(() => 5), lat: recordings[0].lat.map(() => 52) };
  expect(() => draftRoute([still])).toThrow(/^recordings\[0\] must be a recording that moves/);
  const elsewhere = { ...recordings[2], name: 'elsewhere', lat: recordings[2].lat.map((lat) => lat + 0.05) };
  expect(() => draftRoute([recordings[0], recordings[1], elsewhere])).toThrow(
    /^recordings\[2\] must be along the way of recordings\[\d\], not 'elsewhere'/,
  );
  // on 2026-11-28 three that stood still were told of a place in a plane that no caller had given
  const standing = [1, 2, 3].map((seed) => recordingOf(told(shapes['all at one place'](12), seed), `${seed}`));
  expect(() => draftRoute(standing)).toThrow(/^recordings must be of one way, not '1, 2, 3'/);
});
