import { indexRoute, type RouteIndex } from '../index';
import type { DrawnLine } from './Assessment';
import { drawnLine } from './drawnLine';
import type { PlacedRecording } from './PlacedRecording';
import type { RouteGrid } from './RouteGrid';

/** Metres from the route within which fixes are shown, where the corridor is no wider: what `anonymise` lets pass. */
const SHOWN_WITHIN = 50;

export const SHOWN_RULE = `Shown of a recording: fixes from joining the route to leaving it, no further from it than ${SHOWN_WITHIN} m or half the corridor where that is more. Where it was further off is told in metres only.`;

/**
 * What of a recording may be shown: its fixes from joining the route to leaving it that lie near the route, thinned; a new
 * piece after each break and where fixes were cut. Where it was on the way there, on the way home, or on a detour stays untold.
 */
export function shownPieces(grid: RouteGrid, placed: PlacedRecording): DrawnLine[] {
  const { recording, snapped, joined, first, last } = placed;
  const { lon, lat } = recording;
  const { alongTrack, distance } = snapped;
  let index: RouteIndex | undefined;
  const reachAt = (place: number) => Math.max(SHOWN_WITHIN, grid.halfWidth[grid.binAt(place)] || 0);
  const isNear = (i: number) => {
    if (distance[i] <= SHOWN_WITHIN || distance[i] <= reachAt(alongTrack[i])) return true;
    index ??= indexRoute(grid.route);
    const place = index.nearest([lon[i], lat[i]]);
    return place !== undefined && place.distance <= reachAt(place.alongTrack);
  };
  const pieces: DrawnLine[] = [];
  let piece: number[] = [];
  const shown = (column: Float64Array) => {
    const values = new Float64Array(piece.length);
    for (let k = 0; k < values.length; k++) values[k] = column[piece[k]];
    return values;
  };
  const end = () => {
    if (piece.length > 0) {
      pieces.push(drawnLine({ lon: shown(lon), lat: shown(lat), alongTrack: shown(alongTrack) }, 0.2));
    }
    piece = [];
  };
  for (let i = Math.max(0, first); i <= last; i++) {
    if (joined[i] !== 1) end();
    if (!Number.isFinite(lon[i] + lat[i])) continue;
    if (isNear(i)) piece.push(i);
    else end();
  }
  end();
  return pieces;
}
