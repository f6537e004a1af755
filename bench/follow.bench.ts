import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { nearestPointOnLine } from '@turf/turf';
import { localPlane } from '../src/subpaths/geodesy';
import { type FollowedFix, followRoute, snap } from '../src/subpaths/snap';
import type { SimulatedRide } from '../test/support/simulateRide';
import type { Bench, BenchRow } from './support/Bench';
import { promised } from './support/promised';
import { ringRide } from './support/ringRide';
import { showTime } from './support/showTime';
import { wanderingRide } from './support/wanderingRide';

/** Turf's nearest point, a fix, on 2 000 segments on the machine on which the promise was made, milliseconds. */
const TURF_THERE = 2.2;

/** Milliseconds a fix, and megabytes by which a million fixes may raise the heap in use. */
const MOST = 0.01;
const HEAP = 16;

/** A million fixes are so many rides one after the other. */
const RIDES = 25;

/** A route followed fix by fix, what has settled asked for after every fix; processor time, the least of the rides. */
export const run: Bench = ({ smoke }) => {
  const size = smoke ? 2_000 : 1_000_000;
  const usual = wanderingRide(smoke ? 400 : size / RIDES);
  const ring = ringRide(smoke ? 400 : 13_500);
  const { route, recording } = usual;
  const beside = (metres: number) => {
    const { toPosition } = localPlane([recording.lon[100], recording.lat[100]]);
    return toPosition([0, metres]);
  };
  const [near, far] = [beside(3), beside(90_000)];
  const pushed: Readonly<Record<string, (i: number) => FollowedFix>> = {
    'standing still': (i) => ({ position: near, time: 1000 * i }),
    'far off the route': (i) => ({ position: far, time: 1000 * i }),
    'without a time': () => ({ position: near }),
  };
  const few = smoke ? 5 : 100;
  const segments = Math.min(2_000, route.lon.length - 1);
  const coordinates = Array.from({ length: segments + 1 }, (_, i) => [route.lon[i], route.lat[i]]);
  const turf = least(smoke ? 1 : 5, () => {
    const line = { type: 'LineString' as const, coordinates };
    for (let i = 0; i < few; i++) nearestPointOnLine(line, [recording.lon[i], recording.lat[i]]);
  });
  const yardstick = { here: ((turf / few) * 2_000) / segments, there: TURF_THERE };
  const row = (what: string, time: number): BenchRow => ({
    what: `followRoute, ${what}, each`,
    ...promised(time, MOST, yardstick),
  });
  const followed = (ride: SimulatedRide, rides: number) => least(rides, () => follow(ride)) / ride.recording.lon.length;
  const placed = least(smoke ? 1 : 5, () => snap(route, recording)) / recording.lon.length;
  const rides = smoke ? 1 : RIDES;
  return [
    {
      ...row(`${rides * recording.lon.length} fixes along a wandering line, ${rides} rides`, followed(usual, rides)),
      peers: [
        { name: 'snap, all at once, a fix', time: showTime(placed) },
        { name: 'Turf nearestPointOnLine, a fix alone', time: showTime(turf / few) },
      ],
    },
    row(`${ring.recording.lon.length} fixes round a lap of 400 m again and again`, followed(ring, smoke ? 1 : 3)),
    ...Object.entries(pushed).flatMap(([what, fix]): BenchRow[] => {
      const follower = followRoute(route);
      const push = (from: number, to: number) => {
        for (let i = from; i < to; i++) follower.push(fix(i));
      };
      push(0, size / 20);
      const before = heapUsed();
      const time = least(1, () => push(size / 20, size)) / (0.95 * size);
      const grown = (heapUsed() - before) / 1e6;
      return [
        row(`${size} fixes ${what}`, time),
        {
          what: `followRoute, ${size} fixes ${what}, none asked for: the heap grows by`,
          ours: `${Math.max(grown, 0).toFixed(1)} MB`,
          promise: `≤ ${HEAP} MB`,
          held: grown <= HEAP,
        },
      ];
    }),
  ];
};

export function follow({ route, recording: { lon, lat, time } }: SimulatedRide): number {
  const follower = followRoute(route);
  let settled = 0;
  for (let i = 0; i < lon.length; i++) {
    follower.push({ position: [lon[i], lat[i]], time: time![i] });
    settled += follower.settled().length;
  }
  return settled + follower.end().length;
}

/** Milliseconds of processor time, the least of so many runs. */
function least(runs: number, job: () => unknown): number {
  let best = Infinity;
  for (let k = 0; k < runs; k++) {
    const begun = process.cpuUsage();
    job();
    const { user, system } = process.cpuUsage(begun);
    best = Math.min(best, (user + system) / 1000);
  }
  return best;
}

/** Bytes of the heap in use, what nobody holds any more thrown away first. */
function heapUsed(): number {
  setFlagsFromString('--expose-gc');
  const collect = runInNewContext('gc') as () => void;
  for (let k = 0; k < 3; k++) collect();
  return process.memoryUsage().heapUsed;
}
