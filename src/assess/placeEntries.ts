import { group } from 'd3-array';
import type { Route, Steps } from '../model';
import { type ClockOffset, clockOffsets, joinPace, type PlacedAlone, snap, snapPinned } from '../snap';
import { medianOf } from '../statistics';
import type { AssessedRecording } from './Assessment';
import { PlacedRecording } from './PlacedRecording';
import { type Placement, placeEntry } from './placeEntry';
import type { RouteGrid } from './RouteGrid';
import type { Entry } from './testEntries';
import { valuesAbove } from './valuesAbove';

/** What the recordings of its run say of one. */
export interface BesideOthers {
  readonly lag: AssessedRecording['lag'];
  /** Seconds that its clock is ahead of the shared clock of the run, and the standard error of that; NaN where it can't be had. */
  readonly clockOffset: number;
  readonly clockError: number;
  /** Metres by fix that it lies ahead of the pace that the run's recordings share; undefined where they share none. */
  readonly alongTrackError: Float64Array | undefined;
  /** How many share that pace. */
  readonly receivers: number;
}

/** Recordings on the route, and what those of a run say of each other, by name. */
export interface Placements {
  /** In the order of the entries. */
  readonly placements: readonly Placement[];
  readonly beside: ReadonlyMap<string, BesideOthers>;
}

/**
 * A recording that for half of its way is further than this, in metres, from where the others saw the body was on another:
 * receivers err as much, but not all the time.
 */
const STRANGER = 25;

export const PACE_RULE = `Recordings of one run with times share the body’s pace: the median of them at each second, clocks set by where they were at the same instant. Error along the route is relative to it; one that lies further than ${STRANGER} m from it for half of its way was not carried along.`;

/** Every entry placed, those of one run with times as receivers on one body unless their paces are to stay `apart`. */
export function* placeEntries(
  grid: RouteGrid,
  route: Route,
  entries: readonly Entry[],
  pace: 'shared' | 'apart',
): Steps<Placements> {
  const placements: Placement[] = [];
  for (const entry of entries) {
    placements.push(placeEntry(grid, route, entry));
    yield { done: placements.length, of: entries.length, what: 'recordings' };
  }
  const beside = new Map<string, BesideOthers>();
  for (const ofRun of group([...entries.entries()], ([, { run }]) => run).values()) {
    const members = ofRun.flatMap(([i, entry]) => {
      const { placed, refusal } = placements[i];
      const times = entry.recording.time;
      return placed && !refusal && times?.some(Number.isFinite) ? [{ entry, i, placed, times }] : [];
    });
    if (members.length < 2) continue;
    const alone = members.map(({ entry, placed, times }): PlacedAlone => {
      return { recording: entry.recording, times, snapped: placed.snapped };
    });
    if (pace === 'apart') {
      const clocks = clockOffsets(
        route.length,
        alone.map(({ times }) => times),
        alone.map(({ snapped }) => snapped),
      );
      const lags = lagsOf(clocks);
      members.forEach(({ entry }, k) => {
        const { offset: clockOffset, standardError: clockError } = clocks[k];
        const apart = { alongTrackError: undefined, receivers: 0 };
        beside.set(entry.name, { lag: lags[k], clockOffset, clockError, ...apart });
      });
      continue;
    }
    const join = (which: readonly number[]) =>
      joinPace(
        route,
        which.map((k) => alone[k]),
        (k, pins) => {
          const { entry, placed } = members[which[k]];
          // what was placed with options of the user's own stays where it is
          return entry.snapped === undefined || isOurs(route, entry)
            ? snapPinned(route, placed.recording, pins)
            : undefined;
        },
      );
    const all = members.map((_, k) => k);
    const { members: together } = yield* join(all);
    const lags = lagsOf(together.map(({ clock }) => clock));
    const kept = all.filter((k) => !(usual(together[k].alongTrackError) > STRANGER));
    const joined = kept.length < 2 ? [] : kept.length === all.length ? together : (yield* join(kept)).members;
    for (const k of all) {
      const { entry, i, placed } = members[k];
      const own = joined[kept.indexOf(k)];
      beside.set(entry.name, {
        lag: lags[k],
        clockOffset: together[k].clock.offset,
        clockError: together[k].clock.standardError,
        alongTrackError: own?.alongTrackError,
        receivers: joined.length,
      });
      if (own && own.snapped !== placed.snapped) {
        placements[i] = { placed: new PlacedRecording(grid, placed.recording, own.snapped) };
        yield;
      }
    }
  }
  return { placements, beside };
}

/** Of two nobody knows which is late. */
function lagsOf(clocks: readonly ClockOffset[]): AssessedRecording['lag'][] {
  const few = clocks.filter(({ spread }) => Number.isFinite(spread)).length < 3;
  return clocks.map(({ offset: median, spread }) => (few || !Number.isFinite(spread) ? null : { median, spread }));
}

/** Whether a recording was placed as `snap` places it by default: in a worker thread. */
function isOurs(route: Route, { recording, snapped }: Entry): boolean {
  const { alongTrack } = snap(route, recording);
  return alongTrack.every((place, i) => Object.is(place, snapped!.alongTrack[i]));
}

/** The median size of a column, its NaN left out; NaN where nothing else is. */
function usual(column: Float64Array): number {
  const known = valuesAbove(column.map(Math.abs), -1);
  return known.length > 0 ? medianOf(known) : Number.NaN;
}
