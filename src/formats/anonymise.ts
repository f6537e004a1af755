import { InputError } from '../errors';
import { checkNumber } from '../internal/checkNumber';
import { checkOptions, type OptionKeys } from '../internal/checkOptions';
import type { Route } from '../route';
import { SegmentTree } from '../route/SegmentTree';
import { insideZone, type Zone } from './insideZone';
import type { Recording } from './Recording';

/** Options of {@link anonymise}. */
export interface AnonymiseOptions {
  /** Keeps only fixes on its extent: within `within` of it, and not before its start or past its end. */
  readonly route?: Route;
  /** Metres from the route that still count as on it. @defaultValue 50 */
  readonly within?: number;
  /** Fixes in any of them are cut out. */
  readonly zones?: readonly Zone[];
  /**
   * - `relative`: milliseconds since the first fix kept, as if it had been recorded at 1970-01-01T00:00Z
   * - `absolute`: as recorded
   * - `none`: no times
   *
   * @defaultValue 'relative'
   */
  readonly times?: 'relative' | 'absolute' | 'none';
  /**
   * Relative times count from here, milliseconds since the Unix epoch: the same for receivers carried together.
   * @defaultValue the time of the first fix kept
   */
  readonly since?: number;
  /** `true` is the same as `times: 'none'`, `false` as leaving it out. */
  readonly dropTimes?: boolean;
}

const keys: OptionKeys<AnonymiseOptions> = {
  route: true,
  within: true,
  zones: true,
  times: true,
  since: true,
  dropTimes: true,
};

/** A fix nearer than this to the route's first or last point, in metres, lies on it and not beyond: rounding. */
const ON_END = 1e-3;

/**
 * The recording fit to be published: only what lies on the route and outside the zones, times relative, and nothing that
 * tells whose it is. Serial numbers, creator, attributes and extensions are gone; heart rates are never read at all.
 *
 * What was cut is counted in `issues`, and the line is broken there. The name stays, as tables are labelled with it: give
 * the recording one that tells nothing.
 *
 * @example
 * const route = routeFromLine([[5, 60], [5.01, 60]]);
 * const walk = readCsv('lat,lon,time\n60,4.99,1000000000\n60,5.001,1000000060\n60,5.002,1000000120')[0];
 * const shown = anonymise(walk, { route });
 * shown.lon // → [5.001, 5.002]
 * shown.time // → [0, 60000]
 * shown.issues[shown.issues.length - 1].reason // → 'cut-off-route'
 *
 * @throws {InputError} `too-few` when fewer than 2 fixes are left; unknown options; zones that are none
 * @remarks Tracks that end on a circle give its centre away: see {@link drawZone}. Even so a place can be told from what is
 * published if it alone explains where a track begins; prefer the extent of the route.
 */
export function anonymise(recording: Recording, options: AnonymiseOptions = {}): Recording {
  checkOptions(options, keys);
  const { route, within = 50, zones = [], since, dropTimes } = options;
  const { times = dropTimes ? 'none' : 'relative' } = options;
  if (!['relative', 'absolute', 'none'].includes(times) || (dropTimes && times !== 'none')) {
    throw new InputError({
      reason: 'wrong-type',
      argument: 'options.times',
      rule: dropTimes ? "'none' beside dropTimes" : "'relative', 'absolute' or 'none'",
      value: times,
    });
  }
  checkNumber(within, 'options.within', { above: 0 });
  if (since !== undefined) checkNumber(since, 'options.since');
  const n = recording.lon.length;
  const hidden = zones.map((zone, i) => insideZone(zone, `options.zones[${i}]`));
  const onRoute = route === undefined ? () => true : extentOf(route, within);
  const kept: number[] = [];
  let off = 0;
  for (let i = 0; i < n; i++) {
    const [lon, lat] = [recording.lon[i], recording.lat[i]];
    if (!onRoute(lon, lat)) off++;
    else if (!hidden.some((inside) => inside(lon, lat))) kept.push(i);
  }
  if (kept.length < 2) {
    throw new InputError({
      reason: 'too-few',
      argument: 'recording',
      rule: 'one of which at least 2 fixes may be shown',
      value: kept.length,
    });
  }
  const zoned = n - off - kept.length;
  return {
    ...shownColumns(recording, kept, times, since),
    name: recording.name,
    issues: [
      ...recording.issues,
      ...(off > 0 ? [cut('cut-off-route', off, 'Fixes off the extent of the route were cut out')] : []),
      ...(zoned > 0 ? [cut('cut-zone', zoned, 'Fixes in zones to be hidden were cut out')] : []),
    ],
    source: { format: recording.source.format },
    attributes: {},
  };
}

const cut = (reason: string, count: number, message: string) => ({ reason, count, place: 'the recording', message });

function shownColumns(
  recording: Recording,
  kept: readonly number[],
  times: 'relative' | 'absolute' | 'none',
  since: number | undefined,
): Omit<Recording, 'name' | 'issues' | 'source' | 'attributes'> {
  const pick = (column: Float64Array) => Float64Array.from(kept, (i) => column[i]);
  const gapBefore = new Uint8Array(kept.length);
  for (let k = 0; k < kept.length; k++) {
    let gap = k === 0;
    // a gap at any fix that was cut out is a gap still
    for (let i = (kept[k - 1] ?? -1) + 1; i <= kept[k] && !gap; i++) gap = recording.gapBefore[i] === 1 || i < kept[k];
    gapBefore[k] = gap ? 1 : 0;
  }
  const { time, height, hdop, satellites, accuracy } = recording;
  const shown = times === 'none' || time === undefined ? undefined : pick(time);
  if (shown && times === 'relative') {
    const origin = since ?? shown.find((value) => !Number.isNaN(value)) ?? 0;
    for (let k = 0; k < shown.length; k++) shown[k] -= origin;
  }
  return {
    lon: pick(recording.lon),
    lat: pick(recording.lat),
    ...(shown ? { time: shown } : {}),
    ...(height ? { height: pick(height) } : {}),
    ...(hdop ? { hdop: pick(hdop) } : {}),
    ...(satellites ? { satellites: pick(satellites) } : {}),
    ...(accuracy ? { accuracy: pick(accuracy) } : {}),
    gapBefore,
  };
}

function extentOf(route: Route, within: number): (lon: number, lat: number) => boolean {
  const tree = new SegmentTree(route.lon, route.lat);
  return (lon, lat) => {
    const segment = tree.nearest(lon, lat, within);
    if (segment < 0) return false;
    const beyond = (segment === 0 && tree.fraction === 0) || (segment === tree.size - 1 && tree.fraction === 1);
    return !beyond || tree.distance <= ON_END;
  };
}
