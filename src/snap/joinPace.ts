import type { Recording, Route, Snapped, Steps } from '../model';
import { type ClockOffset, clockOffsets } from './clockOffsets';
import type { Pin } from './LatticeStates';
import { markPins } from './markPins';
import { type SharedPace, sharedPace } from './sharedPace';

/** A recording of a body, and as placed alone. */
export interface PlacedAlone {
  readonly recording: Recording;
  readonly times: Float64Array;
  readonly snapped: Snapped;
}

/** What recordings of one body say together. */
export interface JoinedPace {
  /** In the order given, placed again where the others saw the body on another pass. */
  readonly members: readonly {
    readonly snapped: Snapped;
    readonly clock: ClockOffset;
    /** Metres that each foot lies ahead of where the body was then; NaN where fewer than two receivers say where that is. */
    readonly alongTrackError: Float64Array;
  }[];
  readonly pace: SharedPace;
}

/** A fix further than this, in metres, from where the others saw the body was matched to another pass of the route. */
const ELSEWHERE = 50;

/** Seconds between the fixes pinned where the others saw the body, and the standard deviation of that, metres. */
const PIN_EVERY = 30;
const PIN_SD = 30;

/**
 * One pace for recordings of one body, each placed alone before; those that alone were matched to another pass than the
 * others, or could have been, are placed once more: a step each.
 *
 * @param again - Places a recording with pins; undefined where it is to stay where it is.
 */
export function* joinPace(
  route: Route,
  alone: readonly PlacedAlone[],
  again: (member: number, pins: readonly Pin[]) => Snapped | undefined,
): Steps<JoinedPace> {
  const times = alone.map((one) => one.times);
  let snapped = alone.map((one) => one.snapped);
  const look = () => {
    const clocks = clockOffsets(route.length, times, snapped);
    const offsets = clocks.map(({ offset }) => offset);
    const pace = sharedPace(times, snapped, offsets);
    return { clocks, pace, at: (i: number, fix: number) => pace.at(times[i][fix] - 1000 * offsets[i]) };
  };
  let found = look();
  const { at } = found;
  const placed: (Snapped | undefined)[] = [];
  for (const [i, { alongTrack, ambiguous }] of snapped.entries()) {
    yield;
    if (ambiguous.length === 0 && !alongTrack.some((s, k) => Math.abs(s - at(i, k)) > ELSEWHERE)) continue;
    const pins = markPins(route, alone[i].recording);
    let last = -Infinity;
    for (let fix = 0; fix < times[i].length; fix++) {
      const place = at(i, fix);
      if (Number.isNaN(place) || times[i][fix] - last < 1000 * PIN_EVERY) continue;
      last = times[i][fix];
      pins.push({ fix, alongTrack: place, sd: PIN_SD });
    }
    placed[i] = again(i, pins);
  }
  if (placed.some((one) => one !== undefined)) {
    snapped = snapped.map((one, i) => placed[i] ?? one);
    found = look();
  }
  return {
    members: snapped.map((one, i) => ({
      snapped: one,
      clock: found.clocks[i],
      alongTrackError: one.footAlongTrack.map((foot, k) => foot - found.at(i, k)),
    })),
    pace: found.pace.shared,
  };
}
