import { localPlane, thinLine } from '../geodesy';
import {
  checkNumber,
  checkOptions,
  checkRecording,
  hashNumbers,
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
  /** Metres that the line may leave out of what the recordings agree on; more where they agree less: four and a half standard errors of their middle, as
   * much as noise alone makes of a straight line. @defaultValue 2 */
  readonly tolerance?: number;
}

const optionKeys: OptionKeys<DraftRouteOptions> = { tolerance: true };

/** Rounds of putting the recordings in step with the line drawn through them. */
const ROUNDS = 2;
/** Metres between the fixes that the first round looks at. */
const SPARSE = 6;
/** So many standard errors of the centre are noise, no bend. */
const NOISE = 4.5;
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
 * It is linear along a way; where receivers stand still among ever more fixes it grows with the square at the worst.
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
  const usable = list.map((recording, i) => {
    checkRecording(recording, `recordings[${i}]`);
    const fixes = usableFixes(recording);
    if (fixes.lon.length < 2) {
      const rule = 'a recording of at least 2 usable fixes';
      throw new InputError({ reason: 'too-few', argument: `recordings[${i}]`, rule, value: fixes.lon.length });
    }
    return fixes;
  });
  const { lon, lat } = usable[0];
  const plane = localPlane([lon[lon.length >> 1], lat[lon.length >> 1]]);
  const tracks = usable.map((recording) => ({
    recording,
    places: Array.from(recording.lon, (x, k) => plane.toPlane([x, recording.lat[k]])),
  }));
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
  const lengths = tracks.map(({ places }) => lengthOf(places));
  const middling = lengths.map((_, i) => i).sort((a, b) => lengths[a] - lengths[b])[(lengths.length - 1) >> 1];
  const thinned = thin(tracks[middling].places, tolerance);
  if (!(lengthOf(thinned) > 0)) {
    const rule = 'a recording that moves';
    throw new InputError({ reason: 'too-few', argument: `recordings[${middling}]`, rule, value: 1 });
  }
  if (list.length === 1) return drawn(thinned, undefined);
  let route = drawn(thinned, undefined);
  for (let round = 0; round < ROUNDS; round++) {
    // to know about where the middle is, fewer fixes will do
    const beside = (round < ROUNDS - 1 ? tracks.map(sparser) : tracks).map(({ recording, places }, i) => {
      const { alongTrack } = snap(route, recording);
      const on = alongTrack.reduce((sum, metres) => sum + (metres >= 0 ? 1 : 0), 0);
      if (on < LEAST_ALONG * alongTrack.length) {
        throw new InputError({
          reason: 'misplaced',
          argument: `recordings[${i}]`,
          rule: `along the way of recordings[${middling}]`,
          value: recording.name,
          hint: `only ${Math.round((100 * on) / alongTrack.length)} % of its fixes lie beside it`,
        });
      }
      return { places, gapBefore: recording.gapBefore, alongTrack };
    });
    const stations = stationsAlong(route.length, beside);
    const error = errorOf(stations);
    const fitted = fitPolyline(stations, Math.max(tolerance, NOISE * error));
    if (!(lengthOf(fitted) > 0)) {
      const value = list.map(({ name }) => name).join(', ');
      const hint = 'They stand still, or go to and fro';
      throw new InputError({ reason: 'misplaced', argument: 'recordings', rule: 'of one way', value, hint });
    }
    route = drawn(fitted, 2 * error);
  }
  return route;
}

/** A recording's usable fixes, and where they lie in the plane. */
interface Track {
  readonly recording: Recording;
  readonly places: readonly [x: number, y: number][];
}

function usableFixes(recording: Recording): Recording {
  const { lon, lat } = recording;
  const kept = Array.from(lon.keys()).filter((i) => Number.isFinite(lon[i]) && Math.abs(lat[i]) <= 90);
  return kept.length === lon.length ? recording : picked(recording, kept);
}

/** Of fixes nearer to each other than so many metres the first. */
function sparser({ recording, places }: Track): Track {
  const kept = [0];
  for (let i = 1; i < places.length; i++) {
    const [x, y] = places[kept[kept.length - 1]];
    if (recording.gapBefore[i] === 1 || Math.hypot(places[i][0] - x, places[i][1] - y) >= SPARSE) kept.push(i);
  }
  return kept.length < 2
    ? { recording, places }
    : { recording: picked(recording, kept), places: kept.map((i) => places[i]) };
}

/** Some of the fixes of a recording, a gap before each that had one on the way from the one kept before. */
function picked(recording: Recording, fixes: readonly number[]): Recording {
  const { lon, lat, time, gapBefore, name, issues, source, attributes } = recording;
  const pick = (column: Float64Array) => Float64Array.from(fixes, (i) => column[i]);
  return {
    name,
    lon: pick(lon),
    lat: pick(lat),
    ...(time ? { time: pick(time) } : {}),
    gapBefore: Uint8Array.from(fixes, (fix, k) => {
      for (let i = k > 0 ? fixes[k - 1] + 1 : 0; i <= fix; i++) if (gapBefore[i] === 1) return 1;
      return 0;
    }),
    issues,
    source,
    attributes,
  };
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
