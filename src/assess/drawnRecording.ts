import type { AssessedRecording } from './Assessment';
import { round } from './drawnLine';
import type { PlacedRecording } from './PlacedRecording';
import type { RouteGrid } from './RouteGrid';
import { ranAgainst } from './ranAgainst';
import { shownPieces } from './shownPieces';

/** What pictures are drawn from of a recording: by bin its offset and when it passed, and its line. */
export function drawnRecording(
  grid: RouteGrid,
  placed: PlacedRecording | undefined,
): Pick<AssessedRecording, 'offsets' | 'seconds' | 'pieces'> {
  if (!placed) return { offsets: [], seconds: [], pieces: [] };
  const { count } = grid;
  const { offset, passed } = placed;
  // no sides where there are none to be told
  const against = ranAgainst(placed);
  const offsets = new Array<number | null>(count);
  const seconds = new Array<number | null>(count);
  for (let k = 0; k < count; k++) {
    offsets[k] = Number.isNaN(offset[k]) ? null : round(against ? Math.abs(offset[k]) : offset[k], 3);
    seconds[k] = Number.isFinite(passed[k]) ? round(passed[k], 2) : null;
  }
  return { offsets, seconds, pieces: shownPieces(grid, placed) };
}
