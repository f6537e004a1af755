import { bisector } from 'd3-array';
import type { Route } from '../model';
import type { PlacedRecording } from './PlacedRecording';

/** Parts of a lap that are counted by themselves. */
const PARTS = 50;

/** Laps whose lengths differ by more than this share are not the same lap again. */
const SAME = 0.02;

/**
 * How many laps were ridden, whichever they were: as many as the given share of the lap was passed. Undefined where the laps
 * of the route differ in length.
 *
 * Which lap is missing may be unknown; how often the same ground was passed is not.
 */
export function lapsRidden(route: Route, { snapped, joined }: PlacedRecording, share: number): number | undefined {
  const laps = lapStretches(route);
  const length = Math.max(...laps.map(({ from, to }) => to - from));
  if (laps.some(({ from, to }) => to - from < (1 - SAME) * length)) return undefined;
  /** How often each part was passed, forth less back. */
  const passed = new Float64Array(PARTS);
  const { alongTrack } = snapped;
  for (let i = 1; i < alongTrack.length; i++) {
    if (joined[i] !== 1 || Number.isNaN(alongTrack[i] - alongTrack[i - 1])) continue;
    const low = Math.min(alongTrack[i - 1], alongTrack[i]);
    const high = Math.max(alongTrack[i - 1], alongTrack[i]);
    const sign = alongTrack[i] < alongTrack[i - 1] ? -1 : 1;
    // none is longer
    for (let lap = bisector(({ from }: Lap) => from).left(laps, low - length); laps[lap]?.from < high; lap++) {
      const { from, to } = laps[lap];
      if (low >= to) continue;
      const begin = (PARTS * (Math.max(low, from) - from)) / (to - from);
      const end = (PARTS * (Math.min(high, to) - from)) / (to - from);
      for (let part = Math.floor(begin); part < end; part++) {
        passed[part] += sign * (Math.min(end, part + 1) - Math.max(begin, part));
      }
    }
  }
  // against the route back is forth
  const way = passed.reduce((sum, times) => sum + times, 0) < 0 ? -1 : 1;
  const often = passed.map((times) => way * times).sort();
  return Math.max(Math.round(often[Math.floor((1 - share) * PARTS)]), 0);
}

/** From where to where a lap runs. */
interface Lap {
  readonly from: number;
  readonly to: number;
}

/** Each lap in order along the route, from the beginning of its first section to the end of its last. */
function lapStretches({ sections }: Route): Lap[] {
  const laps = new Map<number, Lap>();
  for (const { lap, from, to } of sections) {
    if (lap === undefined) continue;
    const so = laps.get(lap);
    laps.set(lap, { from: Math.min(so?.from ?? from, from), to: Math.max(so?.to ?? to, to) });
  }
  return [...laps.values()].sort((a, b) => a.from - b.from);
}
