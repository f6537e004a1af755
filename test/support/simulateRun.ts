import { Geodesic, WGS84 } from '../../src/geodesy/ellipsoid';
import { wrapLongitude } from '../../src/geodesy/longitude';
import type { Recording } from '../../src/model/Recording';
import type { Route } from '../../src/subpaths/route';
import { seeded } from './randomLine';

/** One receiver on the body. */
export interface SimulatedReceiver {
  readonly name?: string;
  /** Standard deviation of its own error, metres east and likewise north. Default 5. */
  readonly sigma?: number;
  /** A constant offset in metres, right of travel positive. Default 0. */
  readonly bias?: number;
  /** Seconds that its clock is ahead. Default 0. */
  readonly clockAhead?: number;
  /** Seconds between fixes. Default 1. */
  readonly interval?: number;
  /** Nothing is recorded during these seconds of the run. */
  readonly gaps?: readonly { readonly from: number; readonly to: number }[];
  /** `collapsed`: the clock stood still in the gaps. `none`: no times at all. Default `kept`. */
  readonly clock?: 'kept' | 'collapsed' | 'none';
}

/** How the body moved, and the error all receivers share. */
export interface RunOptions {
  readonly seed: number;
  /** Mean pace in metres a second; it wanders by a tenth. Default 3. */
  readonly speed?: number;
  /** Metres along the route where it begins and ends. Default: all of it. */
  readonly from?: number;
  readonly to?: number;
  readonly stops?: readonly { readonly at: number; readonly seconds: number }[];
  /** Places where the body turns, goes back so many metres, and turns again. */
  readonly backtracks?: readonly { readonly at: number; readonly metres: number }[];
  /** Stretches where it leaves the line to the right, `metres` away at most, and comes back. */
  readonly detours?: readonly { readonly from: number; readonly to: number; readonly metres: number }[];
  /** Seconds in which the error of a receiver forgets itself. Default 30. */
  readonly correlation?: number;
  /** Standard deviation of the error that all receivers share, metres east and likewise north. Default 0. */
  readonly sharedSigma?: number;
  /** Default: one with all defaults. */
  readonly receivers?: readonly SimulatedReceiver[];
}

/** A recording beside the truth at each of its fixes. */
export interface SimulatedRecording {
  readonly recording: Recording;
  /** Where the body was, metres along the route. */
  readonly alongTrack: Float64Array;
  /** How far right of the line the receiver was carried: its bias, and the body's detours. */
  readonly crossTrack: Float64Array;
}

const START = Date.UTC(2031, 4, 6, 7, 0, 0);
const TICK = 0.5;

/** A run along a route as several receivers would record it, the same for the same seed. */
export function simulateRun(route: Route, options: RunOptions): SimulatedRecording[] {
  const { seed, correlation = 30, sharedSigma = 0, receivers = [{}] } = options;
  const body = moveBody(route, options);
  const ticks = body.alongTrack.length;
  const shared = errors(normals(seed * 1000 + 1), ticks, sharedSigma, correlation);
  return receivers.map((receiver, index): SimulatedRecording => {
    const { name = `receiver ${index + 1}`, sigma = 5, bias = 0, interval = 1, gaps = [], clock = 'kept' } = receiver;
    const own = errors(normals(seed * 1000 + 2 + index), ticks, sigma, correlation);
    const fixes: { tick: number; gap: boolean }[] = [];
    let lost = true;
    for (let tick = 0; tick < ticks; tick += Math.max(Math.round(interval / TICK), 1)) {
      const inGap = gaps.some(({ from, to }) => tick * TICK >= from && tick * TICK < to);
      if (!inGap) fixes.push({ tick, gap: lost });
      lost = inGap;
    }
    const lon = new Float64Array(fixes.length);
    const lat = new Float64Array(fixes.length);
    const time = new Float64Array(fixes.length);
    const crossTrack = new Float64Array(fixes.length);
    fixes.forEach(({ tick }, i) => {
      crossTrack[i] = bias + body.aside[tick];
      const [x, y] = placeBeside(route, body.alongTrack[tick], crossTrack[i]);
      const east = own.east[tick] + shared.east[tick];
      const north = own.north[tick] + shared.north[tick];
      const azimuth = (Math.atan2(east, north) * 180) / Math.PI;
      const { lat2, lon2 } = WGS84.Direct(y, x, azimuth, Math.hypot(east, north), Geodesic.STANDARD);
      lon[i] = wrapLongitude(lon2!);
      lat[i] = lat2!;
      const missed =
        clock === 'collapsed' ? gaps.reduce((sum, { from, to }) => sum + (tick * TICK >= to ? to - from : 0), 0) : 0;
      time[i] = START + 1000 * (tick * TICK - missed + (receiver.clockAhead ?? 0));
    });
    return {
      recording: {
        name,
        lon,
        lat,
        ...(clock === 'none' ? {} : { time }),
        gapBefore: Uint8Array.from(fixes, ({ gap }) => (gap ? 1 : 0)),
        issues: [],
        source: { format: 'gpx' },
        attributes: {},
      },
      alongTrack: Float64Array.from(fixes, ({ tick }) => body.alongTrack[tick]),
      crossTrack,
    };
  });
}

function moveBody(route: Route, options: RunOptions): { alongTrack: number[]; aside: number[] } {
  const { seed, speed = 3, from = 0, to = route.length, stops = [], backtracks = [], detours = [] } = options;
  const normal = normals(seed * 1000);
  const legs: { to: number; stop: number }[] = [];
  const turns = [
    ...stops.map(({ at, seconds }) => ({ at, legs: [{ to: at, stop: seconds }] })),
    ...backtracks.map(({ at, metres }) => ({
      at,
      legs: [
        { to: at, stop: 0 },
        { to: at - metres, stop: 0 },
      ],
    })),
  ].sort((a, b) => a.at - b.at);
  for (const turn of turns) legs.push(...turn.legs);
  legs.push({ to, stop: 0 });
  const alongTrack = [from];
  let at = from;
  let wander = 0;
  for (const leg of legs) {
    while (at !== leg.to) {
      wander = 0.99 * wander + 0.1 * Math.sqrt(1 - 0.99 ** 2) * normal();
      const step = speed * Math.max(1 + wander, 0.2) * TICK;
      at = Math.abs(leg.to - at) <= step ? leg.to : at + Math.sign(leg.to - at) * step;
      alongTrack.push(at);
    }
    for (let wait = 0; wait < leg.stop; wait += TICK) alongTrack.push(at);
  }
  const aside = alongTrack.map((s) =>
    detours.reduce((sum, { from, to, metres }) => {
      if (!(s > from && s < to)) return sum;
      return sum + metres * Math.sin((Math.PI * (s - from)) / (to - from));
    }, 0),
  );
  return { alongTrack, aside };
}

/** Normal numbers of mean 0 and standard deviation 1, by Box and Muller. */
function normals(seed: number): () => number {
  const uniform = seeded(seed);
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}

/** Errors that forget themselves exponentially: a first-order autoregression, stationary from the start. */
function errors(normal: () => number, ticks: number, sigma: number, correlation: number) {
  const keep = Math.exp(-TICK / correlation);
  const fresh = sigma * Math.sqrt(1 - keep * keep);
  const east = new Float64Array(ticks);
  const north = new Float64Array(ticks);
  for (let i = 0; i < ticks; i++) {
    east[i] = i === 0 ? sigma * normal() : keep * east[i - 1] + fresh * normal();
    north[i] = i === 0 ? sigma * normal() : keep * north[i - 1] + fresh * normal();
  }
  return { east, north };
}

/** The position so many metres along a route and right of it. */
export function placeBeside({ lon, lat, alongTrack }: Route, s: number, right: number): [lon: number, lat: number] {
  let low = 0;
  let high = lon.length - 2;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (alongTrack[middle] <= s) low = middle;
    else high = middle - 1;
  }
  const line = WGS84.InverseLine(
    lat[low],
    lon[low],
    lat[low + 1],
    lon[low + 1],
    Geodesic.STANDARD | Geodesic.DISTANCE_IN,
  );
  const { lat2, lon2, azi2 } = line.Position(s - alongTrack[low], Geodesic.STANDARD);
  if (right === 0) return [wrapLongitude(lon2!), lat2!];
  const beside = WGS84.Direct(lat2!, lon2!, azi2! + 90, right, Geodesic.STANDARD);
  return [wrapLongitude(beside.lon2!), beside.lat2!];
}
