import { group } from 'd3-array';
import type { FixState } from '../model';
import type { AssessedRecording, DataQuality, FixInterval, LapCount, LeftOut, OutsideStretch } from './Assessment';
import { findOffRoute } from './findOffRoute';
import { findStops } from './findStops';
import { lapsRidden } from './lapsRidden';
import { medianAndP95 } from './medianAndP95';
import type { PlacedRecording } from './PlacedRecording';
import type { RouteGrid } from './RouteGrid';
import type { Entry } from './testEntries';
import { valuesAbove } from './valuesAbove';

/** Below this a fix is not surely on this part of the route rather than on another. */
const SURE = 0.9;
/** Seconds within the corridor after which a receiver counts as settled. */
const SETTLED = 60;
/** Share of a lap that must be covered, and surely so, for the lap to count as seen. */
const LAP_SEEN = 0.8;

export const SETTLED_RULE = `Settled: the first ${SETTLED} s in a row within the corridor. Laps are seen as often as ${100 * LAP_SEEN} % of the lap were passed.`;

/** What a recording is as a whole, where it runs and where its faults lie; without what is drawn of it. */
export function describeRecording(
  grid: RouteGrid,
  entry: Entry,
  placed: PlacedRecording | undefined,
  leftOut: LeftOut | null,
  defaultHalfWidth: number,
  hash: string,
): AssessedRecording {
  const { recording } = entry;
  const n = recording.lon.length;
  const states: Record<FixState, number> = { on: 0, off: 0, before: 0, after: 0, unplaced: 0 };
  for (let i = 0; i < n; ) {
    const begun = i;
    const state = placed?.snapped.state[i] ?? 'unplaced';
    // run by run, as most are like the one before
    while (i < n && (placed?.snapped.state[i] ?? 'unplaced') === state) i++;
    states[state] += i - begun;
  }
  const nothing = { fixes: 0, length: 0, seconds: null };
  return {
    name: entry.name,
    receiver: entry.receiver,
    placement: entry.placement,
    run: entry.run,
    included: leftOut === null,
    leftOut,
    fixes: n,
    states,
    joined: placed && placed.first >= 0 ? placed.snapped.alongTrack[placed.first] : null,
    left: placed && placed.first >= 0 ? placed.snapped.alongTrack[placed.last] : null,
    duration: durationOf(recording.time),
    before: placed && placed.first >= 0 ? outside(placed, 0, placed.first) : nothing,
    after: placed && placed.first >= 0 ? outside(placed, placed.last, n - 1) : nothing,
    fixInterval: placed ? fixIntervalOf(placed.wait) : null,
    fixSpacing: placed ? spacingOf(placed.step) : null,
    gaps: placed?.gaps ?? [],
    settled: placed ? settledAt(grid, placed, defaultHalfWidth) : null,
    offRoute: placed ? findOffRoute(grid, placed).map((episode) => ({ ...episode, alsoAway: [] })) : [],
    stops: placed ? findStops(placed) : [],
    laps: placed ? lapsOf(grid, placed) : null,
    backwards: placed ? backwardsOf(placed) : null,
    lag: null,
    placing: placed?.snapped.issues ?? [],
    confidence: placed ? confidenceOf(placed) : null,
    ambiguous: placed ? ambiguousOf(placed) : [],
    data: qualityOf(entry, placed),
    hash,
    recordedLength: placed && placed.first >= 0 ? recordedBy(placed) : null,
    offsets: [],
    seconds: [],
    pieces: [],
  };
}

function durationOf(time: Float64Array | undefined): number | null {
  let first = Number.POSITIVE_INFINITY;
  let last = Number.NEGATIVE_INFINITY;
  for (let i = 0; time && i < time.length; i++) {
    if (!Number.isFinite(time[i])) continue;
    if (time[i] < first) first = time[i];
    if (time[i] > last) last = time[i];
  }
  return first <= last ? (last - first) / 1000 : null;
}

function recordedBy({ recorded }: PlacedRecording): number {
  let sum = 0;
  for (let k = 0; k < recorded.length; k++) sum += recorded[k];
  return sum;
}

function lengthBetween(placed: PlacedRecording, from: number, to: number): number {
  let length = 0;
  for (let i = from + 1; i <= to; i++) {
    if (placed.recording.gapBefore[i] !== 1 && placed.step[i] >= 0) length += placed.step[i];
  }
  return length;
}

function outside(placed: PlacedRecording, from: number, to: number): OutsideStretch {
  const time = placed.recording.time;
  const seconds = time ? (time[to] - time[from]) / 1000 : Number.NaN;
  return {
    fixes: to - from,
    length: lengthBetween(placed, from, to),
    seconds: Number.isFinite(seconds) ? seconds : null,
  };
}

function fixIntervalOf(wait: Float64Array): FixInterval | null {
  const waits = valuesAbove(wait, 0);
  if (waits.length === 0) return null;
  const counts = new Map<number, number>();
  let most = 0;
  let tenth = Number.NaN;
  let count = 0;
  // counted run by run, as most waits are like the one before
  const counted = () => {
    const sum = (counts.get(tenth) ?? 0) + count;
    counts.set(tenth, sum);
    most = Math.max(most, sum);
  };
  for (const seconds of waits) {
    const here = Math.round(seconds * 10);
    if (here === tenth) {
      count++;
      continue;
    }
    counted();
    tenth = here;
    count = 1;
  }
  counted();
  const regularShare = most / waits.length;
  return {
    ...medianAndP95(waits),
    regularShare,
    kind: regularShare >= 0.9 ? 'fixed' : 'variable',
  };
}

function spacingOf(step: Float64Array): { median: number; p95: number } | null {
  // none is below 0
  const steps = valuesAbove(step, -1);
  return steps.length === 0 ? null : medianAndP95(steps);
}

function settledAt(grid: RouteGrid, placed: PlacedRecording, defaultHalfWidth: number): AssessedRecording['settled'] {
  const { crossTrack, alongTrack } = placed.snapped;
  const time = placed.recording.time;
  if (!time || placed.first < 0) return null;
  let since = -1;
  for (let i = placed.first; i <= placed.last; i++) {
    const halfWidth = Number.isNaN(alongTrack[i]) ? Number.NaN : grid.halfWidth[grid.binAt(alongTrack[i])];
    const inside = Math.abs(crossTrack[i]) <= (Number.isNaN(halfWidth) ? defaultHalfWidth : halfWidth);
    if (!inside || !Number.isFinite(time[i])) since = -1;
    // nobody knows where it was in a gap
    else if (since < 0 || placed.joined[i] !== 1) since = i;
    if (since >= 0 && (time[i] - time[since]) / 1000 >= SETTLED) {
      const begun = time.find((instant) => Number.isFinite(instant))!;
      return { alongTrack: alongTrack[since], seconds: (time[since] - begun) / 1000 };
    }
  }
  return null;
}

function lapsOf(grid: RouteGrid, placed: PlacedRecording): LapCount | null {
  const sectionsOf = group(grid.route.sections, ({ lap }) => lap);
  sectionsOf.delete(undefined);
  if (sectionsOf.size === 0) return null;
  const unsure = new Uint8Array(grid.count);
  const { alongTrack, confidence } = placed.snapped;
  for (let i = 0; i < alongTrack.length; i++) {
    if (Number.isFinite(alongTrack[i]) && confidence[i] < SURE) unsure[grid.binAt(alongTrack[i])] = 1;
  }
  const laps = [...sectionsOf]
    .map(([lap, sections]) => ({ lap: lap!, sections }))
    .sort((a, b) => a.lap - b.lap)
    .map(({ lap, sections }) => {
      let length = 0;
      let covered = 0;
      let begin = Number.POSITIVE_INFINITY;
      let end = Number.NEGATIVE_INFINITY;
      for (const section of sections) {
        begin = Math.min(begin, section.from);
        end = Math.max(end, section.to);
        const range = grid.range(section.from, section.to);
        for (let k = range.first; k < range.end; k++) {
          length += grid.width[k];
          if (!Number.isNaN(placed.offset[k]) && unsure[k] === 0) covered += grid.width[k];
        }
      }
      const seconds = (placed.passing(end)?.seconds ?? Number.NaN) - (placed.passing(begin)?.seconds ?? Number.NaN);
      return { lap, coverage: length > 0 ? covered / length : 0, seconds: Number.isFinite(seconds) ? seconds : null };
    });
  const surely = laps.filter(({ coverage }) => coverage >= LAP_SEEN).length;
  return { planned: laps.length, seen: lapsRidden(grid.route, placed, LAP_SEEN) ?? surely, laps };
}

function backwardsOf(placed: PlacedRecording): AssessedRecording['backwards'] {
  const { alongTrack } = placed.snapped;
  let metres = 0;
  let steps = 0;
  let all = 0;
  for (let i = 1; i < alongTrack.length; i++) {
    const progress = alongTrack[i] - alongTrack[i - 1];
    if (placed.joined[i] !== 1 || Number.isNaN(progress)) continue;
    all++;
    if (progress >= 0) continue;
    steps++;
    metres -= progress;
  }
  return all === 0 ? null : { metres, share: steps / all };
}

function confidenceOf(placed: PlacedRecording): AssessedRecording['confidence'] {
  const { confidence, alongTrack } = placed.snapped;
  let sum = 0;
  let min = 1;
  let unsure = 0;
  let count = 0;
  for (let i = 0; i < confidence.length; i++) {
    if (!Number.isFinite(alongTrack[i]) || Number.isNaN(confidence[i])) continue;
    count++;
    sum += confidence[i];
    min = Math.min(min, confidence[i]);
    if (confidence[i] < SURE) unsure++;
  }
  return count === 0 ? null : { mean: sum / count, min, unsureShare: unsure / count };
}

function ambiguousOf({ snapped }: PlacedRecording): AssessedRecording['ambiguous'] {
  return snapped.ambiguous.map(({ from, to, reason, message }) => ({ from, to, reason, message }));
}

function qualityOf({ recording }: Entry, placed: PlacedRecording | undefined): DataQuality {
  let duplicates = 0;
  let reversedTimes = 0;
  let missingTimes = 0;
  const { lon, lat, time } = recording;
  for (let i = 0; i < lon.length; i++) {
    if (time && !Number.isFinite(time[i])) missingTimes++;
    if (i === 0) continue;
    const still = lon[i] === lon[i - 1] && lat[i] === lat[i - 1];
    if (still && (!time || time[i] === time[i - 1])) duplicates++;
    else if (time && time[i] <= time[i - 1]) reversedTimes++;
  }
  return {
    duplicates,
    reversedTimes,
    jumps: placed?.jumps ?? 0,
    missingTimes: time ? missingTimes : lon.length,
    issues: recording.issues ?? [],
  };
}
