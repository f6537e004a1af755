import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  assess,
  bufferWidth,
  densify,
  frechet,
  hausdorff,
  indexRoute,
  inverse,
  offsetRoute,
  pointToGeodesic,
  prepareRoute,
  type Route,
  readGeoJson,
  readGpx,
  routeFromLine,
  snap,
  withinFrechet,
  writeGeoJson,
  writeGpx,
} from 'datumline';
import { reportHtml } from 'datumline/report';
import Flatbush from 'flatbush';
import { assessFigures } from '../src/assess';
import { seeded, wanderingLine } from '../test/support/randomLine';
import { follow } from './follow.bench';
import { at, shapes } from './growth/inputs';
import { coast, pairOf, withBacktracks } from './metrics.bench';
import type { Bench } from './support/Bench';
import { commandTime } from './support/commandTime';
import { medianTime } from './support/medianTime';
import { profileOf } from './support/profileOf';
import { ringRide } from './support/ringRide';
import { sharesOf } from './support/sharesOf';
import { showTime } from './support/showTime';
import { warmTime } from './support/warmTime';
import { windingRide } from './support/windingRide';

/** A goal that was asked for, and a yardstick beside it. */
interface Goal {
  readonly what: string;
  /** Milliseconds that were asked, and that it is counted by: of a whole, or of each of so many. */
  readonly asked: number;
  readonly each: number;
  readonly work: () => unknown;
  /** A part of it, or something like it that others do. */
  readonly least: string;
  readonly leastWork: () => unknown;
}

/** Work of which less than so many milliseconds were asked is done so often. */
const SHORT = 20;
const OFTEN = 60;

/** What is slower than was asked, beside a yardstick, and where its time goes. */
export const run: Bench = async ({ smoke }) => {
  const rounds = smoke ? 1 : 7;
  const lines = [
    '| work | asked | here | beside it, in the same run | where the time goes |',
    '| --- | ---: | ---: | --- | --- |',
  ];
  let missed = 0;
  const tell = (what: string, asked: number, ours: number, beside: string, shares: [string, number][]) => {
    missed++;
    const told = shares.slice(0, 6).map(([name, share]) => `${name} ${Math.round(100 * share)} %`);
    lines.push(`| ${what} | ${showTime(asked)} | ${showTime(ours)} | ${beside} | ${told.join(', ')} |`);
  };
  const goals = goalsOf(smoke);
  for (const { what, asked, each, work, least, leastWork } of goals) {
    // what is short is done often, and compiled for speed by then
    const times = medianTime({ work, leastWork }, !smoke && asked * each < SHORT ? OFTEN : rounds);
    const ours = times.work / each;
    if (ours <= asked && !smoke) continue;
    const beside = `${least}: ${showTime(times.leastWork / each)}`;
    tell(what, asked, ours, beside, await profileOf(work, smoke ? 1 : 1500));
  }
  const whole = wholeCommand(rounds);
  if (whole.ours > COMMAND || smoke) {
    const beside = `the same work in a process that has done it often: ${showTime(whole.warm)}`;
    tell("`datumline assess`, the demo's nine recordings, processor time", COMMAND, whole.ours, beside, whole.shares);
  }
  return [
    {
      what: 'goals of speed whose limits are shown',
      ours: `${missed} of ${goals.length + 1} missed`,
      says: { marker: 'limits', text: lines.join('\n') },
    },
  ];
};

/** Milliseconds of processor time that were asked for the demo's nine recordings, from the start of the process to its end. */
const COMMAND = 800;

/** What the whole command takes, what its work does where no code is new, and where the time of its main thread goes. */
function wholeCommand(rounds: number): { ours: number; warm: number; shares: [string, number][] } {
  const root = fileURLToPath(new URL('..', import.meta.url));
  const folder = mkdtempSync(join(tmpdir(), 'datumline-limits-'));
  try {
    const words = (round: number) => [
      'assess',
      join(root, 'examples/demo/test.json'),
      '--out',
      join(folder, `${round}`),
    ];
    const times = Array.from({ length: rounds }, (_, i) => commandTime([join(root, 'dist/cli.js'), ...words(i)]));
    // the process that does the work, which `cli.js` starts
    commandTime(['--cpu-prof', `--cpu-prof-dir=${folder}`, join(root, 'dist/command.js'), ...words(rounds)]);
    const profile = readdirSync(folder).find((file) => file.endsWith('.cpuprofile'))!;
    const shares = sharesOf(JSON.parse(readFileSync(join(folder, profile), 'utf8')));
    const warm = warmTime(join(root, 'examples/demo'), rounds > 1 ? 12 : 1);
    return { ours: times.sort((a, b) => a - b)[rounds >> 1], warm, shares };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function goalsOf(smoke: boolean): Goal[] {
  const scale = (size: number) => (smoke ? Math.ceil(size / 100) : size);
  const hour = windingRide(smoke ? 300 : 10_800);
  const used = prepareRoute(hour.route);
  const gpx = writeGpx(hour.recordings[0]);
  const laps = ringRide(smoke ? 400 : 53_333);
  const six = windingRide(smoke ? 300 : 10_000);
  const assessed = assess(six.route, six.recordings);
  const json = new TextEncoder().encode(writeGeoJson(wandering(scale(50_000)), { times: 'absolute' }));
  const text = new TextDecoder().decode(json);
  const random = seeded(48);
  const line = wanderingLine(random, { start: [11, 48], count: scale(200_000), step: 5, turn: 20 });
  const long = routeFromLine(line);
  const segments = long.lon.length - 1;
  const index = indexRoute(long);
  const places = Array.from({ length: scale(10_000) }, () => {
    const vertex = Math.floor(random() * segments);
    return [long.lon[vertex] + (random() - 0.5) * 2e-4, long.lat[vertex] + (random() - 0.5) * 1.4e-4];
  });
  const boxes = boxesOf(long);
  const short = routeFromLine(line.slice(0, scale(2001)));
  const few = indexRoute(short);
  const fewBoxes = boxesOf(short);
  const fewPlaces = places.map((_, k) => {
    const vertex = k % (short.lon.length - 1);
    return [short.lon[vertex] + (random() - 0.5) * 2e-4, short.lat[vertex] + (random() - 0.5) * 1.4e-4];
  });
  const hundred = routeFromLine(
    wanderingLine(seeded(7), { start: [11, 48], count: smoke ? 11 : 1026, step: 100, turn: 20 }),
  );
  const vertices = Array.from(hundred.lon, (lon, i) => [lon, hundred.lat[i]]);
  const far = Array.from({ length: smoke ? 5 : 300 }, () => [
    [150 * random() - 75, 120 * random() - 60],
    [150 * random() - 75, 120 * random() - 60],
    [150 * random() - 75, 120 * random() - 60],
  ]);
  const world = coast().slice(0, smoke ? 20 : undefined);
  const coarse = world.filter((_, i) => i % 5 === 0 || i === world.length - 1);
  const { route, recording } = pairOf(smoke ? 500 : 10_000);
  const twice = withBacktracks(recording, [smoke ? 250 : 5_000], smoke ? 100 : 400);
  const reached = frechet(twice, route) + 1e-6;
  const widths = (
    [
      ['side by side', 8000, 1e-4],
      ['zigzag', 4000, 3e-4],
      ['standing still', 1000, 1e-5],
    ] as const
  ).map(([what, n, north]) => {
    const make = what === 'side by side' ? straight : shapes[what];
    const drawn = make(smoke ? Math.max(8, n >> 6) : n);
    return [what, drawn, drawn.map(([lon, lat]) => [lon, lat + north])] as const;
  });
  const ring = ringRide(smoke ? 400 : 13_500);
  return [
    {
      what: 'assess one recording of 1 h at 1 Hz on a route used before',
      ...{ asked: 10, each: 1, work: () => assess(used, [hour.recordings[0]]).rows.length },
      ...{ least: 'placing its fixes', leastWork: () => snap(used, hour.recordings[0]) },
    },
    {
      what: 'a line of `assess --ndjson`: 1 h at 1 Hz read of GPX and judged, the route kept',
      ...{ asked: 1000 / 60, each: 1, work: () => assessFigures(used, readGpx(gpx)).rows.length },
      ...{ least: 'read and placed', leastWork: () => snap(used, readGpx(gpx)[0]).alongTrack.length },
    },
    {
      what: 'assess, 400 laps of 400 m',
      ...{ asked: 747, each: 1, work: () => assess(laps.route, [laps.recording]).rows.length },
      ...{ least: 'placing them', leastWork: () => snap(laps.route, laps.recording).alongTrack.length },
    },
    {
      what: 'assess, 6 recordings × 10 km at 1 Hz',
      ...{ asked: 150, each: 1, work: () => assess(six.route, six.recordings).pairs.length },
      ...{ least: 'placing their fixes', leastWork: () => six.recordings.map((one) => snap(six.route, one)).length },
    },
    {
      what: 'report of them',
      ...{ asked: 150, each: 1, work: () => reportHtml(assessed).length },
      ...{ least: 'the assessment as JSON', leastWork: () => JSON.stringify(assessed).length },
    },
    {
      what: 'nearest, places at random, 200 000 segments',
      ...{ asked: 2.2e-3, each: places.length, work: () => sum(places, (place) => index.nearest(place)!.alongTrack) },
      ...{ least: 'the nearest box by flatbush, no foot', leastWork: () => sum(places, ([x, y]) => boxes.neighbors(x, y, 1)[0]) },
    },
    {
      what: 'nearest, places at random, 2 000 segments',
      ...{ asked: 1e-3, each: fewPlaces.length, work: () => sum(fewPlaces, (place) => few.nearest(place)!.alongTrack) },
      ...{ least: 'the nearest box by flatbush, no foot', leastWork: () => sum(fewPlaces, ([x, y]) => fewBoxes.neighbors(x, y, 1)[0]) },
    },
    {
      what: 'index of 200 000 segments, each',
      ...{ asked: 2e-4, each: segments, work: () => indexRoute(long) },
      ...{ least: 'filling 64 bytes of new memory', leastWork: () => new Float64Array(8 * segments).fill(1).length },
    },
    {
      what: `offsetRoute, ${hundred.lon.length - 1} edges`,
      ...{ asked: 50, each: 1, work: () => offsetRoute(hundred, { side: 'right', metres: 3 }).length },
      ...{ least: 'a route of its vertices', leastWork: () => routeFromLine(vertices).length },
    },
    {
      what: 'exact foot on geodesics and at distances of thousands of kilometres',
      ...{ asked: 8e-3, each: far.length, work: () => sum(far, ([a, b, c]) => pointToGeodesic(a, b, c).distance) },
      ...{ least: 'three distances', leastWork: () => sum(far, ([a, b, c]) => inverse(a, b).distance + inverse(b, c).distance + inverse(c, a).distance) },
    },
    {
      what: `hausdorff, coast of ${world.length} vertices cut every 1 km, against a fifth of them`,
      ...{ asked: 60, each: 1, work: () => hausdorff(world, coarse).distance },
      ...{ least: 'both cut', leastWork: () => densify(world, { maxSpacing: 1000 }).length + densify(coarse, { maxSpacing: 1000 }).length },
    },
    {
      what: 'frechet, back over 2 km and forth again, 10 000 × 10 000',
      ...{ asked: 120, each: 1, work: () => frechet(twice, route) },
      ...{ least: 'one decision, at the answer', leastWork: () => Number(withinFrechet(twice, route, reached)) },
    },
    {
      what: 'bufferWidth, 10 000 × 10 000',
      ...{ asked: 3 * medianTime({ hausdorff: () => hausdorff(recording, route).distance }, 7).hausdorff, each: 1, work: () => bufferWidth(recording, route) },
      ...{ least: 'a third of what was asked, the Hausdorff distance', leastWork: () => hausdorff(recording, route).distance },
    },
    ...widths.map(([what, line, other]) => ({
      what: `bufferWidth, ${what}, ${line.length} vertices`,
      ...{ asked: 3 * medianTime({ hausdorff: () => hausdorff(line, other).distance }, 7).hausdorff, each: 1, work: () => bufferWidth(line, other) },
      ...{ least: 'a third of what was asked, the Hausdorff distance', leastWork: () => hausdorff(line, other).distance },
    })),
    {
      what: 'read 4 MB of GeoJSON, 50 000 points',
      ...{ asked: 80, each: 1, work: () => readGeoJson(json)[0].lon.length },
      ...{ least: '`JSON.parse`', leastWork: () => JSON.parse(text) },
    },
    {
      what: 'followRoute round a lap of 400 m again and again, a fix',
      ...{ asked: 0.01, each: ring.recording.lon.length, work: () => follow(ring) },
      ...{ least: '`snap` of the whole, a fix', leastWork: () => snap(ring.route, ring.recording) },
    },
  ]; // biome-ignore format: a table
}

/** The boxes of a route's segments in a general tree. */
function boxesOf({ lon, lat }: Route): Flatbush {
  const boxes = new Flatbush(lon.length - 1);
  for (let i = 1; i < lon.length; i++) {
    const [x, y] = [
      [lon[i - 1], lon[i]],
      [lat[i - 1], lat[i]],
    ];
    boxes.add(Math.min(...x), Math.min(...y), Math.max(...x), Math.max(...y));
  }
  boxes.finish();
  return boxes;
}

const straight = (n: number) => Array.from({ length: n }, (_, i) => at(5 * i, 0));

const sum = <T>(list: readonly T[], value: (one: T) => number) => list.reduce((total, one) => total + value(one), 0);

/** A recording of so many fixes with times and heights. */
function wandering(points: number) {
  const [lon, lat, time, height] = Array.from({ length: 4 }, () => new Float64Array(points));
  const random = seeded(1);
  for (let i = 0; i < points; i++) {
    lon[i] = (lon[i - 1] ?? 5.5) + (random() - 0.3) * 4e-5;
    lat[i] = (lat[i - 1] ?? 60.5) + (random() - 0.5) * 2e-5;
    height[i] = (height[i - 1] ?? 10) + random() - 0.5;
    time[i] = 1.7e12 + 1000 * i;
  }
  const gapBefore = Uint8Array.from(lon, (_, i) => (i === 0 ? 1 : 0));
  return {
    name: 'bench',
    lon,
    lat,
    time,
    height,
    gapBefore,
    issues: [],
    source: { format: 'gpx' as const },
    attributes: {},
  };
}
