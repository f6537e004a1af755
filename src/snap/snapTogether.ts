import {
  checkRecording,
  checkRoute,
  finish,
  InputError,
  listOf,
  type Recording,
  type Route,
  type Snapped,
} from '../model';
import { FixTrack } from './FixTrack';
import { joinPace } from './joinPace';
import { markPins } from './markPins';
import { preparedRoute } from './PreparedRoute';
import type { SharedPace } from './sharedPace';
import { checkSnapOptions, type SnapOptions } from './snap';
import { snapTrack } from './snapTrack';

/** A recording placed on a route beside others of the same body. */
export interface SnappedBeside extends Snapped {
  /**
   * Seconds that this receiver's clock is ahead of the shared one, by which the fixes of all are brought to the same instants: the
   * `lag` of an assessment. The shared clock is the mean of the majority that lie closest together, where they agree within
   * their noise, else the median of all: of three of which one is 2 s ahead the offsets are 0, 0 and 2, on the mean, as long as that
   * is more than their noise; else part of it is given to the others. Of two only the difference is known, and each is told half of it.
   */
  readonly clockOffset: number;
  /** Metres that each foot lies ahead of where the body was then; NaN where fewer than two receivers say where that is. */
  readonly alongTrackError: Float64Array;
}

/** Recordings of one body placed on a route together. */
export interface SnappedTogether {
  /** In the order given. */
  readonly recordings: readonly SnappedBeside[];
  readonly pace: SharedPace;
}

/**
 * Places several recordings of one body on a route: one pace for all, and for each receiver the offset of its clock and
 * its error along the route.
 *
 * A receiver aligned alone hides its error along the route: wherever it says the body was counts as right. Receivers on
 * one body share its pace, and stray from it each on its own. What another receiver saw also decides where a recording
 * alone could not tell one pass of the route from the other, and bridges its gaps; positions are never taken over.
 *
 * The shared pace is the median over the receivers that are sure of their place, so each has a part in what it is held
 * against: of two, each shows half of their difference. A lag or an error common to all does not show, and a lag of one
 * receiver all the way long shows as a clock that is ahead: nothing tells one from the other.
 *
 * @example
 * const route = routeFromLine([[5, 60], [5.01, 60]])
 * const record = (lag) => readCsv('time,lon,lat\n' + Array.from({ length: 150 }, (_, i) =>
 *   [new Date(Date.UTC(2031, 0, 1) + 1000 * (i + lag)).toISOString(), 5 + i / 15000, 60].join()).join('\n'))[0]
 * const { recordings } = snapTogether(route, [record(0), record(0), record(7)])
 * recordings.map(({ clockOffset }) => Math.round(clockOffset)) // → [0, 0, 7]
 *
 * @param recordings - At least 2, each with times.
 * @throws {InputError} `too-few` recordings, or one without times (`missing`)
 * @remarks Four receivers with errors of 5 and 8 m that persist for 30 s: clocks within 1.5 s, errors along the route with
 * a root mean square within a third of the true one (test/snap/snapTogether.test.ts). Time as of `snap` for each, and with the
 * metres of the route within reach of a fix, up to 6 km.
 */
export function snapTogether(
  route: Route,
  recordings: Iterable<Recording>,
  options: SnapOptions = {},
): SnappedTogether {
  checkRoute(route);
  checkSnapOptions(options);
  const list = listOf(recordings, 'recordings');
  list.forEach((recording, i) => {
    checkRecording(recording, `recordings[${i}]`);
  });
  if (list.length < 2) {
    throw new InputError({ reason: 'too-few', argument: 'recordings', rule: 'at least 2', value: list });
  }
  const times = list.map(({ time }, i) => {
    if (time === undefined) {
      throw new InputError({ reason: 'missing', argument: `recordings[${i}].time`, rule: 'given', value: time });
    }
    return time;
  });
  const prepared = preparedRoute(route);
  const tracks = list.map((recording) => new FixTrack(recording));
  const alone = list.map((recording, i) => ({
    recording,
    times: times[i],
    snapped: snapTrack(prepared, tracks[i], markPins(route, recording), options),
  }));
  const { members, pace } = finish(joinPace(route, alone, (i, pins) => snapTrack(prepared, tracks[i], pins, options)));
  return {
    recordings: members.map(({ snapped, clock, alongTrackError }) => ({
      ...snapped,
      clockOffset: clock.offset,
      alongTrackError,
    })),
    pace,
  };
}
