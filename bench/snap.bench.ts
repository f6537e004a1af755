import { nearestPointOnLine } from '@turf/turf';
import { type Route, routeFromLine } from '../src/subpaths/route';
import { snap } from '../src/subpaths/snap';
import { lapsThenOutAndBack } from '../test/support/planeRoute';
import { seeded, wanderingLine } from '../test/support/randomLine';
import { type SimulatedRecording, simulateRun } from '../test/support/simulateRun';
import type { Bench, BenchRow } from './support/Bench';
import { bytesOf } from './support/bytesOf';
import { medianTime } from './support/medianTime';
import { promised } from './support/promised';
import { showTime } from './support/showTime';
import { strayRows } from './support/strayRows';

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
  const growth = times.large / large.alongTrack.length / (times.small / small.alongTrack.length);
  const bytes = Math.max(...[small, large].map((job) => bytesOf(() => placed(job)) / job.alongTrack.length + POINTER));
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
    ...strayRows(smoke),
  ];
};

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
