import { followRoute } from '../../src/subpaths/snap';
import { hardRides } from '../../test/support/hardRides';
import { plainRuns, recordRun } from '../../test/support/plainRuns';
import type { SimulatedRide } from '../../test/support/simulateRide';

/** Further than this along the route from the truth, metres, a fix lies on another part of it. */
export const ELSEWHERE = 60;

/** What became of the fixes of one kind of ride: of those placed on the route by the truth and by the follower. */
export interface FollowedKind {
  readonly name: string;
  readonly rides: number;
  readonly fixes: number;
  /** How many lay on their pass, at once and settled, and how many were said not to be on the route. */
  readonly atOnce: Followed;
  readonly settled: Followed;
}

export interface Followed {
  readonly placed: number;
  readonly right: number;
  readonly away: number;
}

/** A place as it was told, and whether it lies on its part. */
export interface Told {
  readonly confidence: number;
  readonly right: boolean;
}

type Ride = Pick<SimulatedRide, 'route' | 'recording' | 'alongTrack'>;

/**
 * The rides that test/snap places, with other seeds, or so small a share of them, followed fix by fix and held against the truth.
 *
 * @param lag - Seconds.
 */
export function followingTrials(share: number, begin: number, lag: number) {
  const few = (count: number) => Math.max(Math.round(share * count), 1);
  const seeds = Array.from({ length: few(8) }, (_, k) => 1000 * begin + k);
  const plain = plainRuns.flatMap((run) =>
    run.sigmas.flatMap((sigma) => seeds.map((seed) => ({ route: run.route, ...recordRun(run, sigma, seed) }))),
  );
  const all: { atOnce: Told[]; settled: Told[] } = { atOnce: [], settled: [] };
  const rides: [string, readonly Ride[]][] = [
    ['laps, eights, out and back, parallel streets', plain],
    ...Object.entries(hardRides).map(([name, make]): [string, readonly Ride[]] => [
      name,
      make(few(name.startsWith('pushed') ? 160 : 60), begin),
    ]),
  ];
  const kinds = rides.map(([name, list]): FollowedKind => {
    const told: { atOnce: (Told | undefined)[]; settled: (Told | undefined)[] } = { atOnce: [], settled: [] };
    for (const ride of list) {
      const followed = followRide(ride, lag);
      told.atOnce.push(...followed.atOnce);
      told.settled.push(...followed.settled);
    }
    for (const key of ['atOnce', 'settled'] as const) for (const one of told[key]) if (one) all[key].push(one);
    return {
      name,
      rides: list.length,
      fixes: told.atOnce.length,
      atOnce: counted(told.atOnce),
      settled: counted(told.settled),
    };
  });
  return { kinds, told: all };
}

/** A ride followed; undefined for each fix on the route that was said not to be. */
export function followRide({ route, recording, alongTrack }: Ride, lag: number) {
  const follower = followRoute(route, { lag });
  const { lon, lat, time, gapBefore } = recording;
  const judge = (index: number, confidence: number, place: number | undefined): Told | undefined =>
    place === undefined ? undefined : { confidence, right: Math.abs(place - alongTrack[index]) <= ELSEWHERE };
  const atOnce: (Told | undefined)[] = [];
  const settled: (Told | undefined)[] = [];
  const settle = (places: ReturnType<typeof follower.settled>) => {
    for (const { index, confidence, alongTrack: place } of places) {
      if (!Number.isNaN(alongTrack[index])) settled.push(judge(index, confidence, place));
    }
  };
  for (let i = 0; i < lon.length; i++) {
    const { located, confidence } = follower.push({
      position: [lon[i], lat[i]],
      ...(time && { time: time[i] }),
      gapBefore: gapBefore[i] === 1 ? 1 : 0,
    });
    if (!Number.isNaN(alongTrack[i])) atOnce.push(judge(i, confidence, located?.alongTrack));
    settle(follower.settled());
  }
  settle(follower.end());
  return { atOnce, settled };
}

function counted(told: readonly (Told | undefined)[]): Followed {
  const placed = told.filter((one): one is Told => one !== undefined);
  return {
    placed: placed.length,
    right: placed.filter(({ right }) => right).length,
    away: told.length - placed.length,
  };
}
