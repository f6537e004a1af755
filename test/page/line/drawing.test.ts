import {
  InputError,
  offsetRoute,
  type Route,
  type RouteRecipe,
  routeBuilder,
  routeFromRecipe,
  routeToGeoJson,
  writeGpx,
  writeKml,
} from 'datumline';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addPoint } from '../../../src/page/line/addPoint';
import { cutSection, freeSectionName } from '../../../src/page/line/cutSection';
import { type Drawing, NOTHING } from '../../../src/page/line/Drawing';
import { historyOf, inHistory, withEdit } from '../../../src/page/line/History';
import { handlesOf } from '../../../src/page/line/handlesOf';
import { insertPoint } from '../../../src/page/line/insertPoint';
import { isFixed } from '../../../src/page/line/isFixed';
import { makeLineStore } from '../../../src/page/line/LineStore';
import { layOut } from '../../../src/page/line/layOut';
import { movePoint } from '../../../src/page/line/movePoint';
import { removePoint } from '../../../src/page/line/removePoint';
import { runBeside } from '../../../src/page/line/runBeside';
import { spliceSteps } from '../../../src/page/line/spliceSteps';
import { changesIn, volumesOf } from '../../../src/page/line/volumesOf';
import { walkSteps } from '../../../src/page/line/walkSteps';
import { unwrapLegs, wrapLegs } from '../../../src/page/line/wrapLegs';
import { position, randomRecipe } from './randomRecipes';

/** The route of a recipe, or the sentence why there is none. */
function builtOr(recipe: RouteRecipe): Route | string {
  try {
    return routeFromRecipe(recipe);
  } catch (error) {
    if (error instanceof InputError) return error.message;
    throw error;
  }
}

/** One edit of every kind, at a place that a number picks. */
const edits: Record<string, (drawing: Drawing, pick: number, to: number[]) => Drawing> = {
  addPoint: (drawing, _, to) => addPoint(drawing, to).drawing,
  movePoint(drawing, pick, to) {
    const { handles } = handlesOf(drawing, null);
    return handles.length === 0 ? drawing : movePoint(drawing, handles[pick % handles.length], to, to);
  },
  insertPoint(drawing, pick, to) {
    const { edges } = handlesOf(drawing, null);
    return edges.length === 0 ? drawing : insertPoint(drawing, edges[pick % edges.length], to).drawing;
  },
  removePoint(drawing, pick) {
    const { handles } = handlesOf(drawing, null);
    return handles.length === 0 ? drawing : removePoint(drawing, handles[pick % handles.length]);
  },
  runBeside(drawing, pick, to) {
    const legs = [...walkSteps(drawing)];
    if (legs.length === 0) return drawing;
    const side = pick % 2 === 0 ? 'left' : 'right';
    return runBeside(drawing, legs[pick % legs.length].path, { side, metres: 1 + (pick % 3) }, to);
  },
  wrapLegs: (drawing, pick) => wrapLegs(drawing, [1 + (pick % 2)], 2, { call: 'laps', count: 2 }),
  unwrapLegs: (drawing, pick) => unwrapLegs(drawing, [pick % 5]),
  cutSection(drawing, pick) {
    const { handles } = handlesOf(drawing, null);
    if (handles.length === 0) return drawing;
    const { path, vertex } = handles[pick % handles.length];
    return cutSection(drawing, path, freeSectionName(drawing), vertex);
  },
};

const anEdit = fc.tuple(fc.constantFrom(...Object.keys(edits)), fc.nat(1000), position);

describe('what is drawn is a recipe', () => {
  test('opened and saved, every recipe is itself again and builds the identical route', async () => {
    await fc.assert(
      fc.asyncProperty(randomRecipe, async (recipe) => {
        const route = builtOr(recipe);
        fc.pre(typeof route !== 'string');
        const store = makeLineStore();
        await store.open(JSON.stringify(recipe), 'line.json');
        const other = makeLineStore();
        other.restore(JSON.parse(JSON.stringify(store.saved())));
        expect(other.history.value).toEqual(store.history.value);
        for (const { drawing } of [store, other]) {
          expect(drawing.value).toEqual(recipe);
          expect(layOut(drawing.value).route).toEqual(route);
        }
      }),
      { numRuns: 20 },
    );
  });

  test('after any edits what the store builds is what its recipe builds elsewhere, its fault that error', () => {
    fc.assert(
      fc.property(randomRecipe, fc.array(anEdit, { minLength: 1, maxLength: 4 }), (recipe, many) => {
        let drawing: Drawing = recipe;
        for (const [name, pick, to] of many) drawing = edits[name](drawing, pick, to);
        const judged = builtOr(JSON.parse(JSON.stringify(drawing)));
        if (typeof judged === 'string') expect(() => layOut(drawing)).toThrow(judged);
        else expect(layOut(drawing).route).toEqual(judged);
      }),
      { numRuns: 40 },
    );
  });

  test('every edit leaves what it was given as it was; undone, there is the state before; redone, the one after', () => {
    fc.assert(
      fc.property(randomRecipe, fc.array(anEdit, { minLength: 1, maxLength: 6 }), (recipe, many) => {
        const before = JSON.stringify(recipe);
        const store = makeLineStore();
        const states: Drawing[] = [NOTHING];
        const make = (drawing: Drawing, did: string) => {
          if (drawing === states[states.length - 1]) return;
          states.push(drawing);
          store.edit(drawing, did);
        };
        make(recipe, 'given');
        for (const [name, pick, to] of many) make(edits[name](states[states.length - 1], pick, to), name);
        const texts = states.map((state) => JSON.stringify(state));
        for (let k = states.length - 2; k >= 0; k--) {
          expect(store.undo()).not.toBeNull();
          // wherever one is in it, it is there again after the page was closed
          const again = makeLineStore();
          again.restore(JSON.parse(JSON.stringify(store.saved())));
          expect(again.history.value).toEqual(JSON.parse(JSON.stringify(store.history.value)));
          expect(JSON.stringify(store.drawing.value)).toBe(texts[k]);
        }
        expect(store.undo()).toBeNull();
        expect([store.recipe.value, store.route.value, store.fault.value]).toEqual([null, null, null]);
        for (let k = 1; k < states.length; k++) {
          expect(store.redo()).not.toBeNull();
          expect(JSON.stringify(store.drawing.value)).toBe(texts[k]);
        }
        expect(store.redo()).toBeNull();
        expect(JSON.stringify(recipe)).toBe(before);
      }),
      { numRuns: 25 },
    );
  });

  test('a new edit forgets what was undone; clearing leaves nothing to undo', () => {
    const store = makeLineStore();
    for (const at of [
      [5, 60],
      [5.001, 60],
      [5.002, 60],
    ])
      store.edit(addPoint(store.drawing.value, at).drawing, `to ${at[0]}`);
    expect(store.recipe.value?.steps).toHaveLength(3);
    expect(store.undo()).toBe('to 5.002');
    store.edit(addPoint(store.drawing.value, [5.001, 60.001]).drawing, 'north');
    expect(store.redo()).toBeNull();
    store.clear();
    expect(store.undo()).toBeNull();
    expect(store.drawing.value).toEqual(NOTHING);
  });
});

describe('edits', () => {
  const three: Drawing = {
    version: 1,
    options: {},
    steps: [
      { call: 'start', position: [5, 60] },
      { call: 'lineTo', position: [5.001, 60] },
      { call: 'lineTo', position: [5.001, 60.001] },
    ],
  };

  test('the start taken out, the next point begins the line; the last one out, nothing is left', () => {
    const two = removePoint(three, { path: [0] });
    expect(two.steps).toEqual([{ call: 'start', position: [5.001, 60] }, three.steps[2]]);
    expect(removePoint(removePoint(two, { path: [0] }), { path: [0] })).toEqual(NOTHING);
  });

  test('a leg with a kerb at a distance and side is a line followed; the first one is the start too', () => {
    const first = runBeside(three, [1], { side: 'right', metres: 2 }, [5, 60]);
    expect(first.steps[0]).toEqual({
      call: 'follow',
      line: [
        [5, 60],
        [5.001, 60],
      ],
      side: 'right',
      metres: 2,
    });
    expect(runBeside(first, [0], { side: 'left', metres: 0 }).steps[0]).toEqual({
      call: 'follow',
      line: [
        [5, 60],
        [5.001, 60],
      ],
    });
    expect(runBeside(three, [2], { side: 'left', metres: 1 }, [5.001, 60]).steps).toEqual([
      three.steps[0],
      three.steps[1],
      {
        call: 'follow',
        line: [
          [5.001, 60],
          [5.001, 60.001],
        ],
        side: 'left',
        metres: 1,
      },
    ]);
  });

  test('a line cut into sections: at a point, and within a line that is followed without moving it', () => {
    const cut = cutSection(three, [1], 'lane');
    expect(routeFromRecipe(cut).sections).toEqual([
      { name: 'lane', from: expect.closeTo(55.8, 0), to: expect.closeTo(167.2, 0) },
    ]);
    const line = [
      [5, 60],
      [5.001, 60],
      [5.002, 60.0001],
    ];
    const followed: Drawing = { version: 1, options: {}, steps: [{ call: 'follow', line, side: 'left', metres: 2 }] };
    const split = cutSection(followed, [0], 'lane', 1);
    expect(split.steps.map(({ call }) => call)).toEqual(['follow', 'section', 'follow']);
    expect(routeFromRecipe(split).length).toBeCloseTo(routeFromRecipe(followed).length, 3);
    const part: Drawing = { ...followed, steps: [{ call: 'follow', line, from: 10 }] };
    expect(cutSection(part, [0], 'lane', 1)).toBe(part);
  });

  test('wrapped and unwrapped, legs are as they were', () => {
    const laps = wrapLegs(three, [1], 2, { call: 'laps', count: 3 });
    expect(routeFromRecipe(laps).laps).toMatchObject([{ count: 3 }]);
    expect(unwrapLegs(laps, [1])).toEqual(three);
  });

  test('a leg by direction and distance, dragged, ends where it was dropped', () => {
    const by: Drawing = { ...three, steps: [three.steps[0], { call: 'lineBy', azimuth: 10, distance: 30 }] };
    const moved = movePoint(by, { path: [1] }, [5.0004, 60.0002], [5, 60]);
    const { lon, lat } = routeFromRecipe(moved);
    expect([lon[lon.length - 1], lat[lat.length - 1]]).toEqual([expect.closeTo(5.0004, 9), expect.closeTo(60.0002, 9)]);
  });

  test('a corner of an area moved, the ring stays closed; a line made of others has nothing to move', () => {
    const ring = [
      [5, 60],
      [5.001, 60],
      [5.001, 60.001],
      [5, 60],
    ];
    const area: Drawing = {
      ...three,
      steps: [...three.steps, { call: 'section', name: 'yard', inside: { type: 'Polygon', coordinates: [ring] } }],
    };
    const moved = movePoint(area, { path: [3], vertex: 0 }, [4.999, 60]);
    expect(moved.steps[3]).toMatchObject({ inside: { coordinates: [[[4.999, 60], ring[1], ring[2], [4.999, 60]]] } });
    const fixed = offsetRoute(routeFromRecipe(three), { side: 'left', metres: 2 }).recipe;
    expect(isFixed(fixed)).toBe(true);
    expect(handlesOf(fixed, layOut(fixed))).toEqual({ handles: [], edges: [] });
  });
});

describe('where each step lies', () => {
  test('the place of a step is the length of the recipe up to it', () => {
    fc.assert(
      fc.property(randomRecipe, (recipe) => {
        const plain = { ...recipe, options: { ...recipe.options, cornerRadius: 0 } };
        fc.pre(typeof builtOr(plain) !== 'string');
        const { places, route } = layOut(plain);
        expect([...places.values()].at(-1)?.to).toBeCloseTo(route.length, 6);
        plain.steps.forEach((step, k) => {
          const place = places.get(`${k}`);
          // a line beside shortens the leg before to meet it, so only the last of what was drawn so far is judged
          const next = plain.steps[k + 1]?.call;
          if (place === undefined || k === 0 || next === 'follow' || step.call === 'start') return;
          if (next === 'laps' || next === 'outAndBack') return;
          const prefix = builtOr({ ...plain, steps: plain.steps.slice(0, k + 1) });
          if (typeof prefix !== 'string') expect(place.to).toBeCloseTo(prefix.length, 4);
        });
      }),
      { numRuns: 30 },
    );
  });
});

describe('a line of 3000 legs with 2000 changes', () => {
  const steps = Array.from({ length: 3000 }, (_, i) => ({ call: 'lineTo' as const, position: [5 + i / 1e4, 60] }));
  const line = Array.from({ length: 3000 }, (_, i) => [5 + i / 1e4, 60.1]);
  const begun: Drawing = {
    version: 1,
    options: {},
    steps: [...steps, { call: 'laps', count: 2, steps: [{ call: 'follow', line }] }],
  };
  /** Every second one moves a point of the line followed, the others give a leg a radius; some take or give legs. */
  const edited = (drawing: Drawing, k: number): Drawing => {
    const at = (k * 37) % 2900;
    if (k % 100 === 0) return spliceSteps(drawing, [at], 2);
    if (k % 50 === 0) return spliceSteps(drawing, [at], 0, steps[at], steps[at]);
    if (k % 2 === 0) return spliceSteps(drawing, [at], 1, { ...steps[at], cornerRadius: k });
    const last = drawing.steps.length - 1;
    return movePoint(drawing, { path: [last, 0], vertex: at }, [5 + at / 1e4, 60.1 + k / 1e7], [5, 60]);
  };
  /** Objects, numbers and words of a value. */
  const sizeOf = (value: unknown): number =>
    typeof value === 'object' && value !== null
      ? Object.values(value).reduce((sum: number, one) => sum + sizeOf(one), 1)
      : 1;

  let history = withEdit(historyOf(), begun, 'begun');
  const states: Drawing[] = [NOTHING, begun];
  /** What each change had the browser write, besides what is drawn. */
  const written: number[] = [];
  const kept = new Set<unknown>(volumesOf(history.changes));
  for (let k = 1; k < 2000; k++) {
    states.push(edited(states[k], k));
    history = withEdit(history, states[k + 1], `change ${k}`);
    const fresh = volumesOf(history.changes).filter((volume) => !kept.has(volume));
    for (const volume of fresh) kept.add(volume);
    written.push(fresh.reduce((sum, volume) => sum + sizeOf(volume), 0));
  }

  test('takes the room of what was changed, and each change writes a little, however many there were', () => {
    const [first, ...more] = history.changes.map(sizeOf);
    expect(first).toBeLessThan(60_000);
    expect(Math.max(...more)).toBeLessThan(60);
    expect(Math.max(...written)).toBeLessThan(3000);
  });

  test('kept and read again, all of it is undone to nothing and done again to the end', () => {
    const [drawing, volumes] = JSON.parse(JSON.stringify([history.drawing, volumesOf(history.changes)]));
    let again = { drawing, changes: changesIn(volumes), present: history.present };
    // what is read is not written again
    expect(
      volumesOf(again.changes)
        .slice(0, -1)
        .every((volume, i) => volume === volumes[i]),
    ).toBe(true);
    for (let k = 2000; k > 0; k--) {
      again = inHistory(again, -1);
      if (k % 100 < 2) expect(again.drawing).toEqual(states[k - 1]);
    }
    expect(inHistory(again, -1)).toBe(again);
    for (let k = 1; k <= 2000; k++) again = inHistory(again, 1);
    expect(again.drawing).toEqual(states[2000]);
    expect(inHistory(again, 1)).toBe(again);
  });

  test('of which the oldest volumes are missing: the others are undone; where those undone are missing, nothing is', () => {
    const volumes = volumesOf(history.changes).slice(-3);
    const left = volumes.flat().length;
    const store = makeLineStore();
    store.restore({ drawing: states[1999], volumes, undone: 1, picture: null });
    expect(store.history.value).toMatchObject({ present: left - 1 });
    expect(store.redo()).toBe('change 1999');
    expect(store.drawing.value).toEqual(states[2000]);
    for (let k = 0; k < left; k++) expect(store.undo()).toBe(`change ${1999 - k}`);
    expect(store.undo()).toBeNull();
    expect(store.drawing.value).toEqual(states[2000 - left]);
    store.restore({ drawing: states[1], volumes, undone: 1999, picture: null });
    expect([store.undo(), store.redo(), store.drawing.value]).toEqual([null, null, begun]);
  });
});

describe('documents', () => {
  const route = routeBuilder({ name: 'quay', lateral95: 0.5 })
    .start([5, 60])
    .section('east', { halfWidth: 4 })
    .lineTo([5.001, 60])
    .mark('gate')
    .lineTo([5.001, 60.001])
    .build();

  test('our own GeoJSON is the recipe again; GPX and KML are the line', async () => {
    const store = makeLineStore();
    await store.open(JSON.stringify(routeToGeoJson(route)), 'quay.geojson');
    expect(store.recipe.value).toEqual(route.recipe);
    expect(store.route.value).toEqual(route);
    for (const text of [writeGpx(route), writeKml(route)]) {
      await store.open(text, 'quay.xml');
      expect(store.route.value?.length).toBeCloseTo(route.length, 1);
      expect(store.drawing.value.steps.map(({ call }) => call)).toEqual(['follow']);
    }
    expect(store.undo()).toBe('Opened quay.xml.');
  });

  test('what a document says amiss is told, and what is no line is refused and changes nothing', async () => {
    const store = makeLineStore();
    const drawn = {
      type: 'Feature',
      properties: { sektion: 'a', halfwidth: 3 },
      geometry: {
        type: 'LineString',
        coordinates: [
          [5, 60],
          [5.001, 60],
        ],
      },
    };
    await store.open(JSON.stringify({ type: 'FeatureCollection', features: [drawn] }), 'a.geojson');
    expect(store.notes.value.join()).toMatch(/halfwidth/);
    const before = store.drawing.value;
    const refused = async (text: string) => {
      try {
        await store.open(text, 'b.json');
      } catch (error) {
        return (error as InputError).message;
      }
      return undefined;
    };
    expect(await refused('{"steps": [')).toMatch(/^b\.json must be JSON/);
    expect(await refused('{"runs": []}')).toMatch(/^b\.json must be a line.*test/);
    expect(await refused('{"colour": 1}')).toMatch(/must be a recipe, which has "steps", or GeoJSON, not 'colour'/);
    expect(await refused('{"version": 1, "options": {}, "steps": [{"call": "lineTo", "position": [5, 60]}]}')).toMatch(
      /steps\[0\] lineTo must be after start/,
    );
    expect(await refused('{"version": 2, "options": {}, "steps": []}')).toMatch(
      /must be a document of version 1, not 'version 2'.*newer version of this page/,
    );
    expect(await refused('plain words')).toMatch(/must be/);
    const two = `<gpx>${['a', 'b'].map((name) => `<trk><name>${name}</name><trkseg><trkpt lat="60" lon="5"/><trkpt lat="60.1" lon="5"/></trkseg></trk>`).join('')}</gpx>`;
    expect(await refused(two)).toMatch(/must be one line, not '2: a, b'/);
    expect(store.drawing.value).toBe(before);
  });
});
