import { knownMedian } from '../model';

/** A place of the way, by what the recordings say of it. */
export interface Station {
  readonly x: number;
  readonly y: number;
  /** Recordings that passed it. */
  readonly count: number;
  /** Of one recording, in square metres an axis; NaN with one. */
  readonly variance: number;
}

/** A recording's fixes in the plane, and how far along each is; NaN where it isn't beside the line. */
export interface PlacedTrack {
  readonly places: readonly (readonly [x: number, y: number])[];
  readonly gapBefore: Uint8Array;
  readonly alongTrack: Float64Array;
}

/** Metres between stations, and how many there are at most. */
const SPACING = 2;
const MOST = 20_000;
/** Metres along the way beyond which nothing is told between two fixes. */
const LONGEST_STEP = 60;

/**
 * The middle of recordings at places along a line that they were put in step with: of where each was when it had come so far,
 * the first time, the mean of all but the outermost on each axis (the median of three, the mean of two).
 */
export function stationsAlong(length: number, tracks: readonly PlacedTrack[]): Station[] {
  const spacing = Math.max(SPACING, length / MOST);
  const count = Math.floor(length / spacing) + 1;
  const seen = Array.from({ length: count }, () => ({ xs: [] as number[], ys: [] as number[] }));
  for (const { places, gapBefore, alongTrack } of tracks) {
    let next = 0;
    let before = Number.NaN;
    let from: readonly [number, number] = [0, 0];
    for (let i = 0; i < alongTrack.length; i++) {
      const here = alongTrack[i];
      if (!(here >= 0)) {
        before = Number.NaN;
        continue;
      }
      const to = places[i];
      if (gapBefore[i] === 1 || Number.isNaN(before) || here - before > LONGEST_STEP) {
        next = Math.max(next, Math.ceil(here / spacing));
      } else {
        for (; next < count && next * spacing <= here; next++) {
          const share = here > before ? Math.min(1, Math.max(0, (next * spacing - before) / (here - before))) : 1;
          seen[next].xs.push(from[0] + share * (to[0] - from[0]));
          seen[next].ys.push(from[1] + share * (to[1] - from[1]));
        }
      }
      before = here;
      from = to;
    }
  }
  return seen.flatMap(({ xs, ys }) =>
    xs.length === 0
      ? []
      : [
          {
            x: middleOf(xs),
            y: middleOf(ys),
            count: xs.length,
            variance: xs.length > 1 ? (varianceOf(xs) + varianceOf(ys)) / 2 : Number.NaN,
          },
        ],
  );
}

function middleOf(values: number[]): number {
  if (values.length === 3) return knownMedian(values);
  const sorted = values.length > 3 ? values.sort((a, b) => a - b).slice(1, -1) : values;
  return sorted.reduce((sum, value) => sum + value, 0) / sorted.length;
}

function varianceOf(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1);
}
