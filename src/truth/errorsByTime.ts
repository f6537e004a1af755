import { earthCentred } from '../geodesy';
import { checkNumber, checkOptions, checkRecording, InputError, type OptionKeys, type Recording } from '../model';
import { type FixError, TrueMotion, type TruthOptions } from './TrueMotion';

/** Options of {@link errorsByTime}. */
export interface ErrorsByTimeOptions extends TruthOptions {
  /** Seconds that the recording is late, to be taken out: each fix is compared with the truth so much earlier. @defaultValue 0 */
  readonly delay?: number;
}

/** The errors of a recording, one entry for each of its fixes, in metres; NaN where unknown. */
export interface TimedErrors {
  /** From the true place at that instant. */
  readonly horizontal: Float64Array;
  /** Ahead of it positive, in the true direction of motion; NaN while the body stands. */
  readonly along: Float64Array;
  /** Right of it positive; NaN while the body stands. */
  readonly across: Float64Array;
  /** Above it positive; NaN where either has no height. */
  readonly up: Float64Array;
  readonly east: Float64Array;
  readonly north: Float64Array;
  /** Metres a second of the body, over half a second to either side. */
  readonly speed: Float64Array;
}

const optionKeys: OptionKeys<ErrorsByTimeOptions> = { maxTruthGap: true, truth95: true, delay: true };

/**
 * How far each fix of a recording lies from where the truth says the body was at that instant, in metres: along the true
 * direction of motion, across it, upwards.
 *
 * A fix without a time, outside the truth's times or where the truth is broken for more than `maxTruthGap` has none. Each fix
 * is taken at the time that it states, whatever its neighbours do. Coincident fixes have errors of 0.
 *
 * @example
 * const line = 'time,lon,lat\n'
 * const at = (second, lon) => [new Date(Date.UTC(2031, 0, 1) + 1000 * second).toISOString(), lon, 60].join()
 * const walk = (late) => readCsv(line + Array.from({ length: 60 }, (_, i) => at(i + late, 5 + i / 20000)).join('\n'))[0]
 * const { along, across } = errorsByTime(walk(0), walk(1))
 * along[30] // → -2.79…
 * Math.abs(across[30]) < 0.001 // → true
 *
 * @param truth - times rising, within one day; its `accuracy` counts as 95 %
 * @throws {InputError} a truth without times or with times that go back, a recording without times, an option out of its range
 * @remarks To 0.1 mm within 10 m of the truth and 2 cm within a kilometre, from there on as long as the geodesic. Between fixes of a truth at
 * intervals of h the cubic is off by h⁴/384 of the fourth derivative: 1 mm at 1 Hz on a bend of 10 m radius at 3 m/s. Linear
 * in the number of fixes.
 */
export function errorsByTime(truth: Recording, recording: Recording, options: ErrorsByTimeOptions = {}): TimedErrors {
  checkOptions(options, optionKeys);
  const { delay = 0 } = options;
  checkNumber(delay, 'options.delay');
  const motion = new TrueMotion(truth, options);
  checkRecording(recording);
  if (!recording.time?.some(Number.isFinite)) {
    throw new InputError({ reason: 'missing', argument: 'recording.time', rule: 'given', value: undefined });
  }
  return measureFixes(motion, recording, placesOf(recording), delay);
}

/** Earth-centred places of a recording's fixes, three numbers each; NaN where a fix has none. */
export function placesOf({ lon, lat }: Recording): Float64Array {
  const places = new Float64Array(3 * lon.length).fill(Number.NaN);
  for (let i = 0; i < lon.length; i++) {
    if (!(Number.isFinite(lon[i]) && Math.abs(lat[i]) <= 90)) continue;
    const [x, y, z] = earthCentred(lon[i], lat[i]);
    places[3 * i] = x;
    places[3 * i + 1] = y;
    places[3 * i + 2] = z;
  }
  return places;
}

/** The errors of fixes, those late by `delay` seconds against where the body was then. */
export function measureFixes(
  motion: TrueMotion,
  { lon, lat, time, height }: Recording,
  places: Float64Array,
  delay: number,
): TimedErrors {
  const column = () => new Float64Array(lon.length).fill(Number.NaN);
  const errors = {
    horizontal: column(),
    along: column(),
    across: column(),
    up: column(),
    east: column(),
    north: column(),
    speed: column(),
  };
  const error = {} as FixError;
  const place = [0, 0, 0];
  for (let i = 0; i < lon.length; i++) {
    place[0] = places[3 * i];
    if (Number.isNaN(place[0])) continue;
    place[1] = places[3 * i + 1];
    place[2] = places[3 * i + 2];
    const instant = time![i] - 1000 * delay;
    if (!motion.measure(lon[i], lat[i], place, height?.[i] ?? Number.NaN, instant, error)) continue;
    errors.horizontal[i] = error.horizontal;
    errors.along[i] = error.along;
    errors.across[i] = error.across;
    errors.up[i] = error.up;
    errors.east[i] = error.east;
    errors.north[i] = error.north;
    errors.speed[i] = error.speed;
  }
  return errors;
}
