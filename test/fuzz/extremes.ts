import { direct, type Recording, type Route, routeBuilder, routeFromLine } from 'datumline';
import type { Position } from 'geojson';
import type { Dice } from './Dice';

const numbers = [
  ...[0, -0, 1, -1, 0.5, 2, 3, 45, 90, -90, 180, -180, 359.99, 360, 1e-3, 1e-6, 1e-9, 1e-300, 5e-324, 1e3, 1e6, 2e7, 4e7],
  ...[1e15, 8.64e15, 9e15, 1e90, -1e90, 1e91, 1e200, 1e308, -1e308, Number.NaN, Infinity, -Infinity],
]; // biome-ignore format: a list of numbers

/** What stands for nothing, or for something else, in any language that can call a function. */
const junk: readonly unknown[] = [
  undefined, null, true, 5, 'x', '', '5', '\ud800', '__proto__', Symbol.iterator, 10n, () => 5, () => Number.NaN, new Date(0), /x/,
  [], [null], [undefined], [[]], [[5, 60]], [5, 60], [Number.NaN, 60], new Array(3), {}, { length: 1e9 }, { length: -1 }, { lon: [5], lat: [60] },
  { name: 5 }, { toString: null }, JSON.parse('{"__proto__": {"a": 1}}'), Object.create(null), new Float64Array(2), new Uint8Array(3), new Map(),
  { type: 'LineString', coordinates: [[5, 60], [5, 61]] }, { type: 'FeatureCollection', features: [null] }, { version: 1, options: {}, steps: [undefined] },
]; // biome-ignore format: a list of values

// nobody may write into what is given
for (const value of junk) {
  if (typeof value === 'object' && !ArrayBuffer.isView(value)) Object.freeze(value);
}

export const anyJunk = (dice: Dice): unknown => dice.pick(junk);

/** Any number at all. */
export const anyNumber = (dice: Dice): number =>
  dice.chance(0.5) ? dice.pick(numbers) : dice.between(-1, 1) * 10 ** dice.integer(-12, 16);

/** A number of about this size, seldom any. */
export const about = (dice: Dice, size: number): number =>
  dice.chance(0.15) ? anyNumber(dice) : dice.between(0, 2 * size);

/** A position: mostly near one place, some at the ends of the globe. */
export function anyPosition(dice: Dice): Position {
  if (dice.chance(0.02)) return [anyNumber(dice), anyNumber(dice)];
  if (dice.chance(0.2)) {
    const lon = dice.pick([-180, 180, 179.99999, -179.99999, 0, -0, 5, 90]);
    return [lon, dice.pick([90, -90, 89.99999, 0, -0, 1e-12, 60])];
  }
  const place: Position = [
    5 + dice.between(-1, 1) * 10 ** dice.integer(-9, 1),
    60 + dice.between(-1, 1) * 10 ** dice.integer(-9, 1),
  ];
  return dice.chance(0.1) ? [...place, dice.between(-100, 9000)] : place;
}

/** A line of a few positions: wandering, standing, back and forth, with repetitions. */
export function anyLine(dice: Dice, most = 12): Position[] {
  let at = dice.chance(0.8) ? [5 + dice.between(-1, 1) * 1e-3, 60] : anyPosition(dice);
  if (!(Math.abs(at[0]) <= 180 && Math.abs(at[1]) <= 90)) at = [5, 60];
  const step = 10 ** dice.integer(-6, 4);
  let azimuth = dice.between(0, 360);
  return dice.list(dice.chance(0.05) ? 0 : 2, most, () => {
    const here = at;
    azimuth += dice.pick([0, 0, 10, -30, 90, 180]);
    if (!dice.chance(0.1)) at = direct(at, azimuth, dice.between(0, step)).position;
    return here;
  });
}

/** A route of a few legs: laps, corners, sections, marks; anywhere; of hardly any length up to kilometres. */
export function anyRoute(dice: Dice): Route {
  try {
    if (dice.chance(0.3)) {
      return routeFromLine(anyLine(dice), {
        maxSpacing: dice.pick([5, 20, 1000]),
        ...(dice.chance(0.5) ? { name: 'a' } : {}),
      });
    }
    const start = dice.chance(0.8)
      ? [5, 60]
      : dice.pick([
          [179.9999, 10],
          [0, 89.9999],
          [-180, -89.99],
          [0, 0],
        ]);
    const size = dice.pick([0.01, 1, 30, 100, 300]);
    const builder = routeBuilder({
      maxSpacing: dice.pick([5, 20, 100]),
      ...(dice.chance(0.3) ? { cornerRadius: dice.pick([0, 1, 10]) } : {}),
      ...(dice.chance(0.3) ? { lateral95: dice.pick([0, 0.2, 3]) } : {}),
    }).start(start);
    const legs = dice.list(1, 5, (i) => ({
      i,
      azimuth: dice.pick([0, 90, 91, 180, 270, 33.3]),
      distance: dice.between(0.1, 1) * size,
    }));
    const named = dice.chance(0.5);
    builder.laps(dice.pick([1, 1, 1, 2, 5]), (lap) => {
      for (const { i, azimuth, distance } of legs) {
        if (named) lap.section(`s${i}`, dice.chance(0.5) ? { halfWidth: dice.between(0.1, 20) } : {});
        if (dice.chance(0.2)) lap.mark(`m${i}`);
        lap.lineBy({ azimuth, distance });
        if (dice.chance(0.15))
          lap.arc({ turn: dice.pick(['left', 'right'] as const), radius: size / 3, sweep: dice.between(1, 200) });
      }
    });
    return builder.build();
  } catch {
    return plainRoute;
  }
}

const plainRoute = routeFromLine(
  [
    [5, 60],
    [5.002, 60],
  ],
  { name: 'plain' },
);

/** A recording: of the route or a part of it, off it, standing, elsewhere, with columns that have holes. */
export function anyRecording(dice: Dice, route: Route = plainRoute): Recording {
  const n = dice.pick([1, 2, 3, 10, 40, 80]);
  const last = route.lon.length - 1;
  const [from, to] = dice.chance(0.7) ? [0, last] : [dice.integer(0, last), dice.integer(0, last)];
  const aside = dice.pick([0, 1, 5, 80, 3000]);
  const lon = new Float64Array(n);
  const lat = new Float64Array(n);
  const time = new Float64Array(n);
  const kind = dice.pick(['along', 'along', 'along', 'standing', 'elsewhere']);
  let clock = dice.pick([0, 1.9e12, -1e10]);
  for (let i = 0; i < n; i++) {
    const at = kind === 'standing' ? from : Math.round(from + ((to - from) * i) / Math.max(n - 1, 1));
    const place = kind === 'elsewhere' ? [-70, -30] : [route.lon[at], route.lat[at]];
    const moved = direct(
      [((((place[0] + 180) % 360) + 360) % 360) - 180, place[1]],
      dice.between(0, 360),
      dice.roll() * aside,
    ).position;
    [lon[i], lat[i]] = moved;
    clock += dice.pick([1000, 1000, 1000, 1000, 0, 7, 60_000, -500]);
    time[i] = dice.chance(0.03) ? Number.NaN : clock;
  }
  const column = (values: () => number) =>
    Float64Array.from({ length: n }, () => (dice.chance(0.1) ? Number.NaN : values()));
  return {
    name: dice.pick(['A', 'B', 'C', '<b>', ' x', '']),
    lon,
    lat,
    ...(dice.chance(0.8) ? { time } : {}),
    ...(dice.chance(0.3) ? { height: column(() => dice.between(-400, 9000)) } : {}),
    ...(dice.chance(0.3) ? { accuracy: column(() => dice.pick([0, 1, 5, 100, 1e9])) } : {}),
    ...(dice.chance(0.2)
      ? { hdop: column(() => dice.pick([0, 0.8, 99, -1, 1e90])), satellites: column(() => dice.integer(0, 40)) }
      : {}),
    gapBefore: Uint8Array.from({ length: n }, (_, i) => (i === 0 || dice.chance(0.05) ? 1 : 0)),
    issues: [],
    source: { format: 'gpx' },
    attributes: dice.chance(0.2) ? { desc: 'a', number: 1 } : {},
  };
}
