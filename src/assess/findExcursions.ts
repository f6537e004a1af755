import type { Excursion } from './Assessment';
import { round } from './drawnLine';
import type { PlacedRecording } from './PlacedRecording';
import type { RouteGrid } from './RouteGrid';
import { ranAgainst } from './ranAgainst';

/** Runs out of the corridor closer together than this are one. */
const MERGED_WITHIN = 5;

export const EXCURSION_RULE = `Runs out of the corridor with less than ${MERGED_WITHIN} m between them are one excursion.`;

/**
 * The stretches on which a recording lies further from the route than the corridor allows, in order along the route.
 *
 * @param defaultHalfWidth used where the route states none
 */
export function findExcursions(
  grid: RouteGrid,
  name: string,
  placed: PlacedRecording,
  defaultHalfWidth: number,
): Omit<Excursion, 'number'>[] {
  const { offset } = placed;
  const { count, halfWidth, edges, width } = grid;
  const limit = (k: number) => (Number.isNaN(halfWidth[k]) ? defaultHalfWidth : halfWidth[k]);
  const runs: { first: number; last: number }[] = [];
  for (let k = 0; k < count; k++) {
    const size = Math.abs(offset[k]);
    // NaN is above nothing, and nothing above it
    if (!(size > halfWidth[k] || (size > defaultHalfWidth && Number.isNaN(halfWidth[k])))) continue;
    const run = runs[runs.length - 1];
    // A side change or a section's end doesn't end an excursion: the reader wants to know how long it was away.
    if (run && edges[k] - edges[run.last + 1] < MERGED_WITHIN) run.last = k;
    else runs.push({ first: k, last: k });
  }
  const against = ranAgainst(placed);
  return runs.map(({ first, last }) => {
    let peakBin = first;
    let area = 0;
    let broken = false;
    for (let k = first; k <= last; k++) {
      if (Number.isNaN(offset[k])) {
        broken = true;
        continue;
      }
      area += Math.abs(offset[k]) * width[k];
      if (Math.abs(offset[k]) > Math.abs(offset[peakBin])) peakBin = k;
    }
    const seconds = placed.passed[last] - placed.passed[first];
    const section = grid.section[peakBin];
    return {
      recording: name,
      section: section < 0 ? null : grid.route.sections[section].name,
      from: edges[first],
      to: edges[last + 1],
      metres: edges[last + 1] - edges[first],
      seconds: Number.isFinite(seconds) ? Math.abs(seconds) : null,
      peak: against ? Math.abs(offset[peakBin]) : offset[peakBin],
      side: against ? null : offset[peakBin] < 0 ? 'left' : 'right',
      peakAt: grid.middle[peakBin],
      position: grid.positionAt(peakBin).map((degrees) => round(degrees, 7)),
      area,
      threshold: limit(peakBin),
      broken,
    };
  });
}
