import type { Recording } from 'datumline';
import { Geodesic, WGS84 } from '../../src/geodesy/ellipsoid';
import { wrapLongitude } from '../../src/geodesy/longitude';

/** How a body moves: metres a second and degrees clockwise from north at each instant, in seconds from the start. */
export interface RideMotion {
  readonly start?: readonly [lon: number, lat: number];
  readonly seconds: number;
  readonly speed: (second: number) => number;
  readonly azimuth: (second: number) => number;
}

/** The error of a receiver at an instant, in metres ahead and to the right of where the body was `delay` seconds before. */
export interface RideError {
  readonly ahead?: (second: number) => number;
  readonly right?: (second: number) => number;
  readonly up?: (second: number) => number;
  readonly delay?: number;
}

/** Noon of a day of its own. */
export const RIDE_BEGUN = Date.UTC(2031, 4, 6, 12);
/** Seconds of a step of the body: a sixteenth of the tenth at which a truth is logged is left of its bends. */
const STEP = 1 / 160;

/**
 * A ride that is nothing but geodesics laid end to end, by the published solution of the direct problem, so that where the
 * body was, and in which direction it moved, is known without any of the code that is to find it.
 */
export class TimedRide {
  readonly #lon: Float64Array;
  readonly #lat: Float64Array;
  readonly motion: RideMotion;

  constructor(motion: RideMotion) {
    this.motion = motion;
    const steps = Math.ceil(motion.seconds / STEP) + 1;
    this.#lon = new Float64Array(steps);
    this.#lat = new Float64Array(steps);
    let [lon, lat] = motion.start ?? [6.1, 51.2];
    for (let i = 0; i < steps; i++) {
      this.#lon[i] = lon;
      this.#lat[i] = lat;
      const middle = (i + 0.5) * STEP;
      const end = WGS84.Direct(lat, lon, motion.azimuth(middle), motion.speed(middle) * STEP, Geodesic.STANDARD);
      lon = wrapLongitude(end.lon2!);
      lat = end.lat2!;
    }
  }

  /** Where the body was. */
  place(second: number): [lon: number, lat: number] {
    const i = Math.min(this.#lon.length - 1, Math.max(0, Math.floor(second / STEP + 1e-9)));
    const rest = second - i * STEP;
    if (rest < 1e-12) return [this.#lon[i], this.#lat[i]];
    const middle = (i + 0.5) * STEP;
    const speed = this.motion.speed(middle);
    const { lon2, lat2 } = WGS84.Direct(this.#lat[i], this.#lon[i], this.motion.azimuth(middle), speed * rest);
    return [wrapLongitude(lon2!), lat2!];
  }

  /** What a receiver with an error records, at these seconds of its clock. */
  record(seconds: readonly number[], { ahead, right, up, delay = 0 }: RideError = {}, name = 'receiver'): Recording {
    const places = seconds.map((second) => {
      const then = second - delay;
      const place = this.place(then);
      const a = ahead?.(second) ?? 0;
      const r = right?.(second) ?? 0;
      if (a === 0 && r === 0) return place;
      const turn = (Math.atan2(r, a) * 180) / Math.PI;
      const { lon2, lat2 } = WGS84.Direct(place[1], place[0], this.motion.azimuth(then) + turn, Math.hypot(a, r));
      return [wrapLongitude(lon2!), lat2!] as const;
    });
    return {
      name,
      lon: Float64Array.from(places, ([lon]) => lon),
      lat: Float64Array.from(places, ([, lat]) => lat),
      time: Float64Array.from(seconds, (second) => RIDE_BEGUN + 1000 * second),
      ...(up ? { height: Float64Array.from(seconds, (second) => 40 + up(second)) } : {}),
      gapBefore: Uint8Array.from(seconds, (_, i) => (i === 0 ? 1 : 0)),
      issues: [],
      source: { format: 'columns' },
      attributes: {},
    };
  }

  /** A survey-grade recording, at so many fixes a second. */
  truth(rate: number, accuracy?: number): Recording {
    const recording = this.record(every(this.motion.seconds, 1 / rate), { up: () => 0 }, 'truth');
    return accuracy === undefined
      ? recording
      : { ...recording, accuracy: new Float64Array(recording.lon.length).fill(accuracy) };
  }
}

/** 0, interval, 2 interval … up to the end. */
export function every(end: number, interval: number, begin = 0): number[] {
  return Array.from({ length: Math.floor((end - begin) / interval + 1e-9) + 1 }, (_, i) => begin + i * interval);
}
