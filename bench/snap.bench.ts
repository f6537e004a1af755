import { nearestPointOnLine } from '@turf/turf';
import { prepareRoute, type Route, routeFromLine } from '../src/subpaths/route';
import { snap } from '../src/subpaths/snap';
import { lapsThenOutAndBack } from '../test/support/planeRoute';
import { seeded, wanderingLine } from '../test/support/randomLine';
import { type SimulatedRide, simulateRide } from '../test/support/simulateRide';
import { type SimulatedRecording, simulateRun } from '../test/support/simulateRun';
import type { Bench, BenchRow } from './support/Bench';
import { bytesOf } from './support/bytesOf';
import { medianTime } from './support/medianTime';
import { placingTrials } from './support/placingTrials';
import { promised } from './support/promised';
import { ringRide } from './support/ringRide';
import { showTime } from './support/showTime';
import { strayRows } from './support/strayRows';
import { wanderingRide } from './support/wanderingRide';

/** Turf's nearest point, a fix, on 2 000 segments on the machine on which the promise was made. */
const TURF_THERE = 2.2;

/** A time a fix that grows with their number by no more than this counts as linear: the rest is the cache. */
const LINEAR = 1.5;

/** Bytes a fix that were promised; a pointer is what the column of states holds of each, which is no typed array. */
const MEMORY = 200;
const POINTER = 8;

interface Job extends SimulatedRecording {
  readonly route: Route;
}

/** A whole recording placed on its route: fixes each second or so, errors of 5 m that persist for 30 s. */
export const run: Bench = ({ smoke }) => {
  const wandering = (fixes: number, length: number): Job => {
    const line = wanderingLine(seeded(9), { start: [11, 48], count: Math.round(length / 10), step: 20, turn: 30 });
    const route = routeFromLine(line);
    return { route, ...simulateRun(route, { seed: 3, speed: route.length / fixes })[0] };
  };
  const small = smoke ? wandering(200, 500) : wandering(3_600, 10_000);
  const large = smoke ? wandering(400, 1_000) : wandering(40_000, 100_000);
  const route = lapsThenOutAndBack([11, 48]);
  const laps = { route, ...simulateRun(route, { seed: 3, to: smoke ? 300 : undefined })[0] };
  const placed = (job: Job) => snap(job.route, job.recording);
  const few = smoke ? 2 : 20;
  const times = medianTime(
    {
      small: () => placed(small).alongTrack.length,
      large: () => placed(large).alongTrack.length,
      laps: () => placed(laps).alongTrack.length,
      turfSmall: () => turfPlaces(small, few).length,
      turfLaps: () => turfPlaces(laps, few).length,
    },
    smoke ? 1 : 7,
  );
  const turf = times.turfSmall / few;
  const yardstick = { here: (turf * 2_000) / small.route.lon.length, there: TURF_THERE };
  const row = (job: Job, time: number, most?: number): BenchRow => ({
    what: `snap, ${job.alongTrack.length} fixes on ${(job.route.length / 1000).toFixed(1)} km`,
    ...(most === undefined ? { ours: showTime(time) } : promised(time, most, yardstick)),
    error: `${rightShare(job, placed(job).alongTrack)} within 30 m of the truth`,
  });
  const nearest = (job: Job, time: number, sample: number) => [
    {
      name: 'Turf nearestPointOnLine, a fix alone',
      time: `${showTime(time)} each`,
      error: rightShare(job, turfPlaces(job, sample)),
    },
  ];
  const hard = (make: (fixes: number) => SimulatedRide, fixes: number) => {
    const [few, many] = [make(fixes / 10), make(fixes)];
    const took = medianTime(
      {
        few: () => snap(few.route, few.recording).alongTrack.length,
        many: () => snap(many.route, many.recording).alongTrack.length,
      },
      smoke ? 1 : 3,
    );
    const each = took.many / many.recording.lon.length;
    return { count: many.recording.lon.length, each, growth: each / (took.few / few.recording.lon.length) };
  };
  const much = smoke ? 1 / 50 : 1;
  const wander = hard((fixes) => wanderingRide(fixes), 400_000 * much);
  const ring = hard((fixes) => ringRide(fixes), 13_500 * much);
  const still = hard((fixes) => standingRide(fixes, 5), 36_000 * much);
  const onePlace = hard((fixes) => standingRide(fixes, 0), 36_000 * much);
  const linear = (what: string, { count, each, growth }: ReturnType<typeof hard>, most?: number): BenchRow => ({
    what: `snap, ${what}, ${count} fixes, each`,
    ...(most === undefined ? { ours: showTime(each) } : promised(each, most, yardstick)),
    error: `${growth.toFixed(2)} × that of a tenth as many`,
  });
  const trials = placingTrials(smoke ? 2 : 48, 61);
  const growth = times.large / large.alongTrack.length / (times.small / small.alongTrack.length);
  const bytes = Math.max(...[small, large].map((job) => bytesOf(() => placed(job)) / job.alongTrack.length + POINTER));
  // a hundred laps, their route made ready before: what belongs to it is made once
  const round = ringRide(13_500 * much);
  const prepared = prepareRoute(round.route);
  snap(prepared, round.recording);
  const ringBytes = bytesOf(() => snap(prepared, round.recording)) / round.recording.lon.length + POINTER;
  return [
    { ...row(small, times.small, 40), peers: nearest(small, turf, smoke ? 5 : 100) },
    row(large, times.large, 600),
    {
      ...row(laps, times.laps),
      what: `snap, ${laps.alongTrack.length} fixes on 3 laps, then out and back`,
      peers: nearest(laps, times.turfLaps / few, smoke ? 5 : 400),
    },
    {
      what: `snap, time of a fix among ${large.alongTrack.length} beside one among ${small.alongTrack.length}`,
      ours: `${growth.toFixed(2)} ×`,
      promise: 'linear',
      held: growth <= LINEAR,
    },
    {
      what: 'snap, arrays constructed, a fix',
      ours: `${Math.round(bytes)} bytes`,
      promise: `≤ ${MEMORY} bytes`,
      held: bytes <= MEMORY,
    },
    {
      what: 'snap, arrays constructed, a fix of a hundred laps of 400 m, the route prepared',
      ours: `${Math.round(ringBytes)} bytes`,
      promise: `≤ ${MEMORY} bytes`,
      held: ringBytes <= MEMORY,
    },
    ...strayRows(smoke),
    linear('along a wandering line', wander, 0.006),
    linear('round a lap of 400 m again and again', ring, 0.015),
    linear('standing still', still),
    linear('all at one place', onePlace),
    ...trials.kinds.map(
      ({ name, rides, strayed, flagged, right }): BenchRow => ({
        what: `snap, rides ${name}: with more than two fixes elsewhere`,
        ours: `${strayed} of ${rides}, ${flagged} flagged`,
        error: `${(100 * right).toFixed(2)} % of fixes on their pass`,
      }),
    ),
    ...trials.reliability.slice(1).map(
      ({ least, share, right }): BenchRow => ({
        what: `snap, of the ${(100 * share).toFixed(1)} % of fixes with confidence ≥ ${least}, on their pass`,
        ours: `${(100 * right).toFixed(2)} %`,
        promise: `≥ ${least} − 0.01`,
        held: right >= least - 0.01,
      }),
    ),
  ];
};

/** Beside the middle of a street, so many fixes. */
function standingRide(fixes: number, sigma: number): SimulatedRide {
  return simulateRide(
    [
      [0, 0],
      [400, 0],
    ],
    { seed: 4, sigma, pace: 0.0001, ridden: [{ from: 200, to: 200 + fixes * 0.0001 }] },
  );
}

/**
 * Metres along the route where the segment begins on which Turf finds the nearest point, for so many fixes, evenly taken;
 * NaN for the others. (Its own lengths are those of a sphere.)
 */
function turfPlaces({ route, recording }: Job, sample: number): Float64Array {
  const coordinates = Array.from(route.lon, (lon, i) => [lon, route.lat[i]]);
  const line = { type: 'LineString' as const, coordinates };
  const n = recording.lon.length;
  const places = new Float64Array(n).fill(Number.NaN);
  const every = Math.max(Math.floor(n / sample), 1);
  for (let i = 0; i < n; i += every) {
    const { properties } = nearestPointOnLine(line, [recording.lon[i], recording.lat[i]]);
    places[i] = route.alongTrack[properties.index];
  }
  return places;
}

/** The share of the places that lie within 30 m of the truth, of those that are there. */
function rightShare({ alongTrack }: Job, places: Float64Array): string {
  let there = 0;
  let right = 0;
  places.forEach((place, i) => {
    if (Number.isNaN(place)) return;
    there++;
    if (Math.abs(place - alongTrack[i]) <= 30) right++;
  });
  return `${((100 * right) / there).toFixed(2)} %`;
}
