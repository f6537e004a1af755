import type { AssessedRecording } from './Assessment';
import type { PlacedRecording } from './PlacedRecording';
import { plainColumn } from './plainColumn';
import type { RouteGrid } from './RouteGrid';
import { ranAgainst } from './ranAgainst';
import { shownPieces } from './shownPieces';

/** What pictures are drawn from of a recording: by bin its offset and when it passed, and its line. */
export function drawnRecording(
  grid: RouteGrid,
  placed: PlacedRecording | undefined,
): Pick<AssessedRecording, 'offsets' | 'seconds' | 'pieces'> {
  if (!placed) return { offsets: [], seconds: [], pieces: [] };
  const { offset, passed } = placed;
  // no sides where there are none to be told
  const offsets = plainColumn(ranAgainst(placed) ? offset.map(Math.abs) : offset, 3);
  return { offsets, seconds: plainColumn(passed, 2), pieces: shownPieces(grid, placed) };
}
