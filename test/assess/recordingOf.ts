import type { Recording } from 'datumline';

/** A recording of positions, one a second unless times are given. */
export function recordingOf(
  positions: readonly (readonly [number, number])[],
  {
    name = 'recording',
    times,
    gaps = [],
  }: { name?: string; times?: readonly number[] | null; gaps?: readonly number[] } = {},
): Recording {
  const gapBefore = new Uint8Array(positions.length);
  for (const i of [0, ...gaps]) gapBefore[i] = 1;
  const begun = Date.UTC(2030, 0, 1);
  return {
    name,
    lon: Float64Array.from(positions, ([lon]) => lon),
    lat: Float64Array.from(positions, ([, lat]) => lat),
    ...(times === null ? {} : { time: Float64Array.from(positions, (_, i) => begun + 1000 * (times?.[i] ?? i)) }),
    gapBefore,
    issues: [],
    source: { format: 'gpx' },
    attributes: {},
  };
}
