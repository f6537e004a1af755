import type { Position } from 'geojson';
import { localPlane } from '../../src/geodesy/localPlane';
import type { Recording, Route } from '../../src/model';
import { normals } from './correlatedOffsets';
import { type PlanePoint, planeRoute } from './planeRoute';

/** Fixes pushed aside together: a receiver that lies a street away. */
export interface Push {
  /** Seconds since the start at which it is at its full size, and for how long. */
  readonly at: number;
  readonly seconds: number;
  /** Seconds to get there and likewise back: 0 is a step. */
  readonly ramp: number;
  readonly by: PlanePoint;
}

export interface RideOptions {
  readonly seed: number;
  /** Metres a second; it wanders by a tenth. Default 3. */
  readonly pace?: number;
  /** Standard deviation of a fix per axis, metres; it persists for `correlation` seconds, 30 by default. Default 5. */
  readonly sigma?: number;
  readonly correlation?: number;
  /** Seconds between fixes. Default 1. */
  readonly interval?: number;
  /** The stretches of the route that are ridden, one after the other, straight across between them. Default: all of it. */
  readonly ridden?: readonly { readonly from: number; readonly to: number }[];
  readonly pushes?: readonly Push[];
  /** What the receiver writes down as the time: `minutes` cuts them, `one` is the same for all, `back` run backwards. */
  readonly clock?: 'true' | 'minutes' | 'one' | 'back' | 'none';
}

/** A recording of a ride along a route in the plane, and the truth beside each fix. */
export interface SimulatedRide {
  readonly route: Route;
  readonly recording: Recording;
  /** Metres along the route; NaN where it was between two stretches that it rode. */
  readonly alongTrack: Float64Array;
  /** 1 where a fix is pushed. */
  readonly pushed: Uint8Array;
}

const ORIGIN: Position = [5, 52];
const BEGUN = Date.UTC(2031, 4, 6, 7);

/** A ride as one receiver would record it, the same for the same seed: points of the plane, no geodesics, so many a second. */
export function simulateRide(points: readonly PlanePoint[], options: RideOptions): SimulatedRide {
  const { seed, pace = 3, sigma = 5, correlation = 30, interval = 1, pushes = [], clock = 'true' } = options;
  const route = planeRoute(ORIGIN, points);
  const { toPosition } = localPlane(ORIGIN);
  const lengths = points.map(([x, y], i) => (i > 0 ? Math.hypot(x - points[i - 1][0], y - points[i - 1][1]) : 0));
  const total = lengths.reduce((a, b) => a + b, 0);
  const scale = total / route.length;
  const place = placeOn(points, lengths);
  const ridden = options.ridden ?? [{ from: 0, to: route.length }];
  const normal = normals(7919 * seed + 11);
  const keep = Math.exp(-interval / correlation);
  const fresh = sigma * Math.sqrt(1 - keep * keep);
  const along: number[] = [];
  const at: PlanePoint[] = [];
  const pushed: number[] = [];
  let east = sigma * normal();
  let north = sigma * normal();
  let wander = 0;
  let leg = 0;
  let s = ridden[0].from;
  let across: { from: PlanePoint; to: PlanePoint; length: number; done: number } | undefined;
  for (let seconds = 0; ; seconds += interval) {
    const here = across
      ? mix(across.from, across.to, across.length > 0 ? across.done / across.length : 1)
      : place(s * scale);
    const share = pushes.reduce((most, push) => Math.max(most, shareOf(push, seconds)), 0);
    const by = pushes.find((push) => shareOf(push, seconds) > 0)?.by ?? [0, 0];
    at.push([here[0] + east + share * by[0], here[1] + north + share * by[1]]);
    along.push(across ? Number.NaN : s);
    pushed.push(share > 0 ? 1 : 0);
    east = keep * east + fresh * normal();
    north = keep * north + fresh * normal();
    wander = keep * wander + 0.1 * Math.sqrt(1 - keep * keep) * normal();
    let left = interval * pace * Math.max(1 + wander, 0.2);
    while (left > 0) {
      const room = across ? across.length - across.done : ridden[leg].to - s;
      if (left < room) {
        if (across) across.done += left;
        else s += left;
        break;
      }
      left -= room;
      if (across) {
        across = undefined;
        s = ridden[++leg].from;
      } else {
        if (leg + 1 >= ridden.length) return finish();
        const from = place(ridden[leg].to * scale);
        const to = place(ridden[leg + 1].from * scale);
        across = { from, to, length: Math.hypot(to[0] - from[0], to[1] - from[1]), done: 0 };
      }
    }
  }

  function finish(): SimulatedRide {
    const places = at.map((point) => toPosition(point));
    const instants = at.map((_, i) => {
      const instant = BEGUN + 1000 * interval * i;
      if (clock === 'minutes') return Math.floor(instant / 60_000) * 60_000;
      if (clock === 'one') return BEGUN;
      return clock === 'back' ? BEGUN - 1000 * interval * i : instant;
    });
    const recording: Recording = {
      name: 'ride',
      lon: Float64Array.from(places, ([lon]) => lon),
      lat: Float64Array.from(places, ([, lat]) => lat),
      ...(clock === 'none' ? {} : { time: Float64Array.from(instants) }),
      gapBefore: Uint8Array.from(at, (_, i) => (i === 0 ? 1 : 0)),
      issues: [],
      source: { format: 'gpx' },
      attributes: {},
    };
    return { route, recording, alongTrack: Float64Array.from(along), pushed: Uint8Array.from(pushed) };
  }
}

function shareOf({ at, seconds, ramp }: Push, now: number): number {
  if (now >= at && now < at + seconds) return 1;
  const away = now < at ? at - now : now - at - seconds;
  return away < ramp ? 1 - away / ramp : 0;
}

function mix(from: PlanePoint, to: PlanePoint, share: number): PlanePoint {
  return [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])];
}

/** Where a place along a line of the plane lies; asked for in order it takes a step. */
function placeOn(points: readonly PlanePoint[], lengths: readonly number[]): (metres: number) => PlanePoint {
  const ends: number[] = [];
  lengths.reduce((sum, length, i) => (ends[i] = sum + length), 0);
  let edge = 1;
  return (metres) => {
    while (edge < points.length - 1 && ends[edge] < metres) edge++;
    while (edge > 1 && ends[edge - 1] > metres) edge--;
    return mix(points[edge - 1], points[edge], lengths[edge] > 0 ? (metres - ends[edge - 1]) / lengths[edge] : 0);
  };
}
