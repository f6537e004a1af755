import {
  checkArray,
  checkChoice,
  checkNumber,
  checkOptions,
  checkRecording,
  checkRoute,
  checkString,
  InputError,
  issueSentences,
  type OptionKeys,
  type ReadIssue,
  type ReadIssueReason,
  type Recording,
  type Route,
} from '../model';
import { insideZone, type Zone } from './insideZone';
import { type FixColumns, keepFixes } from './keepFixes';
import { routeExtent, SHOWN_WITHIN } from './routeExtent';

/** Options of {@link anonymise}. */
export interface AnonymiseOptions {
  /** Keeps only fixes on its extent: at most `maxDistance` from it, and not before its start or past its end. */
  readonly route?: Route;
  /** Metres from the route that still count as on it. @defaultValue 50 */
  readonly maxDistance?: number;
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
}

const keys: OptionKeys<AnonymiseOptions> = {
  route: true,
  maxDistance: true,
  zones: true,
  times: true,
  since: true,
};

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
 * @throws {InputError} `too-few` when fewer than 2 fixes are left; unknown options; a zone that is neither a disc nor a
 * polygon
 * @remarks Tracks that end on a circle give its centre away: see {@link drawZone}. Even so a place can be told from what is
 * published if it alone explains where a track begins; prefer the extent of the route.
 */
export function anonymise(recording: Recording, options: AnonymiseOptions = {}): Recording {
  checkRecording(recording);
  checkString(recording.name, 'recording.name');
  checkString(recording.source?.format, 'recording.source.format');
  checkArray(recording.issues, 'recording.issues');
  for (const [i, issue] of recording.issues.entries()) checkString(issue?.message, `recording.issues[${i}].message`);
  checkOptions(options, keys);
  const { route, maxDistance = SHOWN_WITHIN, zones = [], times = 'relative', since } = options;
  checkChoice(times, 'options.times', ['relative', 'absolute', 'none']);
  checkNumber(maxDistance, 'options.maxDistance', { above: 0 });
  if (since !== undefined) checkNumber(since, 'options.since');
  if (route !== undefined) checkRoute(route, 'options.route');
  checkArray(zones, 'options.zones');
  const n = recording.lon.length;
  const hidden = zones.map((zone, i) => insideZone(zone, `options.zones[${i}]`));
  const onRoute = route === undefined ? () => true : routeExtent(route, maxDistance);
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
    ...shownTimes(keepFixes(recording, kept), times, since),
    name: recording.name,
    issues: [
      ...recording.issues,
      ...(off > 0 ? [cut('cut-off-route', off)] : []),
      ...(zoned > 0 ? [cut('cut-zone', zoned)] : []),
    ],
    source: { format: recording.source.format },
    attributes: {},
  };
}

const cut = (reason: ReadIssueReason, count: number): ReadIssue => {
  return { reason, count, place: 'the recording', message: issueSentences[reason] };
};

/** Without times, or with times that count from `since`, else from the first one shown. */
function shownTimes(
  { time, ...columns }: FixColumns,
  times: 'relative' | 'absolute' | 'none',
  since: number | undefined,
): FixColumns {
  if (times === 'none' || time === undefined) return columns;
  if (times === 'absolute') return { ...columns, time };
  const origin = since ?? time.find((value) => !Number.isNaN(value)) ?? 0;
  return { ...columns, time: time.map((value) => value - origin) };
}
