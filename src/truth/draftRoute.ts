import type { Position } from 'geojson';
import { hashNumbers } from '../assess';
import { localPlane, thinLine } from '../geodesy';
import {
  checkNumber,
  checkOptions,
  checkRecording,
  InputError,
  listOf,
  type OptionKeys,
  type Recording,
  type Route,
} from '../model';
import { routeFromRecipe } from '../route';
import { snap } from '../snap';
import { fitPolyline } from './fitPolyline';
import { type Station, stationsAlong } from './stationsAlong';

/** Options of {@link draftRoute}. */
export interface DraftRouteOptions {
  /** Metres that the line may leave out of what the recordings agree on; more where they agree less: five standard errors of their middle, as
   * much as noise alone makes of a straight line. @defaultValue 2 */
  readonly tolerance?: number;
}

const optionKeys: OptionKeys<DraftRouteOptions> = { tolerance: true };

/** Rounds of putting the recordings in step with the line drawn through them. */
const ROUNDS = 2;
/** So many standard errors of the centre are noise, no bend. */
const NOISE = 5;
/** A recording with a smaller share of its fixes beside the way of another lies apart. */
const LEAST_ALONG = 0.5;
/** Longest edge of the draft in metres: a hand moves its vertices, and should find few. */
const LONGEST = 2000;

/**
 * A first line to correct by hand, drawn through recordings of one way: put in step by order and time, in the middle of them,
 * in few vertices.
 *
 * It is no reference as it is: recordings judged against what was drawn from them look good, and what all have in common does
 * not show. It remembers them (`drafted` in its provenance, with the hashes of their positions), and `assess` gives no side and
 * no verdict on them until the line has been moved by more than `tolerance` somewhere.
 *
 * Its `lateral95` is twice the standard error of the middle, of how far the recordings lie apart: errors that all share are not
 * in it. From one recording it is that recording thinned, and states none.
 *
 * @example
 * const line = (aside) => readCsv('lon,lat\n' + Array.from({ length: 80 }, (_, i) => [5 + i / 20000, 60 + aside / 111415].join()).join('\n'))[0]
 * const draft = draftRoute([line(3), line(-3), line(0)])
 * draft.lon.length // → 2
 * draft.provenance[0].drafted.recordings.length // → 3
 *
 * @param recordings - at least one, each of the whole way; laps are kept apart
 * @throws {InputError} no recording (`too-few`), one without 2 usable fixes, one that does not go along the way of the others
 * (`misplaced`); an option out of its range
 * @remarks Six recordings of σ 4 m that persists for 30 s: test/truth/draftRoute.test.ts; time: bench/truth.bench.ts.
 */
export function draftRoute(recordings: Iterable<Recording>, options: DraftRouteOptions = {}): Route {
  const list = listOf(recordings, 'recordings');
  checkOptions(options, optionKeys);
  const { tolerance = 2 } = options;
  checkNumber(tolerance, 'options.tolerance', { above: 0 });
  if (list.length === 0) {
    throw new InputError({
      reason: 'too-few',
      argument: 'recordings',
      rule: 'at least 1 recording',
      value: list,
    });
  }
  const tracks = list.map((recording, i) => {
    checkRecording(recording, `recordings[${i}]`);
    const positions: Position[] = [];
    recording.lon.forEach((lon, k) => {
      if (Number.isFinite(lon) && Math.abs(recording.lat[k]) <= 90) positions.push([lon, recording.lat[k]]);
    });
    if (positions.length < 2) {
      const rule = 'a recording of at least 2 usable fixes';
      throw new InputError({ reason: 'too-few', argument: `recordings[${i}]`, rule, value: positions.length });
    }
    return positions;
  });
  const plane = localPlane(tracks[0][tracks[0].length >> 1]);
  const places = tracks.map((track) => track.map((position) => plane.toPlane(position)));
  const hashes = list.map(({ lon, lat }) => hashNumbers([lon, lat]));
  const drawn = (vertices: readonly (readonly [number, number])[], lateral95: number | undefined) => {
    const line = vertices.map((place) => plane.toPosition(place).map((value) => Math.round(value * 1e9) / 1e9));
    return routeFromRecipe({
      version: 1,
      options: { name: 'draft', maxSpacing: LONGEST },
      steps: [
        {
          call: 'provenance',
          source: `drafted from ${list.length === 1 ? 'a recording' : `${list.length} recordings`}, to be corrected by hand`,
          ...(lateral95 === undefined ? {} : { lateral95 }),
          drafted: { recordings: hashes, tolerance, line },
        },
        { call: 'follow', line },
      ],
    });
  };
  // the one of middling length: the shortest may lack a part, the longest have a detour
  const lengths = places.map(lengthOf);
  const middling = lengths.map((_, i) => i).sort((a, b) => lengths[a] - lengths[b])[(lengths.length - 1) >> 1];
  const thinned = thin(places[middling], tolerance);
  if (!(lengthOf(thinned) > 0)) {
    const rule = 'a recording that moves';
    throw new InputError({ reason: 'too-few', argument: `recordings[${middling}]`, rule, value: 1 });
  }
  if (list.length === 1) return drawn(thinned, undefined);
  let route = drawn(thinned, undefined);
  for (let round = 0; round < ROUNDS; round++) {
    const beside = list.map((recording, i) => {
      const { alongTrack } = snap(route, recording);
      const on = alongTrack.reduce((sum, metres) => sum + (metres >= 0 ? 1 : 0), 0);
      if (on < LEAST_ALONG * recording.lon.length) {
        throw new InputError({
          reason: 'misplaced',
          argument: `recordings[${i}]`,
          rule: `along the way of recordings[${middling}]`,
          value: recording.name,
          hint: `${on} of its ${recording.lon.length} fixes lie beside it`,
        });
      }
      return { recording, alongTrack };
    });
    const stations = stationsAlong(route.length, beside, plane);
    const error = errorOf(stations);
    route = drawn(fitPolyline(stations, Math.max(tolerance, NOISE * error)), 2 * error);
  }
  return route;
}

function lengthOf(places: readonly (readonly [number, number])[]): number {
  let length = 0;
  for (let i = 1; i < places.length; i++)
    length += Math.hypot(places[i][0] - places[i - 1][0], places[i][1] - places[i - 1][1]);
  return length;
}

function thin(places: readonly [number, number][], tolerance: number): [number, number][] {
  const kept = thinLine(
    places.map(([east]) => east),
    places.map(([, north]) => north),
    tolerance,
  ).map((i) => places[i]);
  return kept.filter((place, i) => i === 0 || place[0] !== kept[i - 1][0] || place[1] !== kept[i - 1][1]);
}

/** Standard error of the middle of the recordings in metres an axis, pooled over the stations. */
function errorOf(stations: readonly Station[]): number {
  const told = stations.filter(({ variance }) => !Number.isNaN(variance));
  if (told.length === 0) return 0;
  return Math.sqrt(told.reduce((sum, { variance, count }) => sum + variance / count, 0) / told.length);
}
