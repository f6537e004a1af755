import type { AssessedRecording, DrawnLine } from '../assess';

/**
 * What was recorded from joining the route to leaving it, detours between included: the way to the start and from the
 * finish home is nobody's business.
 */
export function strandPieces({ pieces }: AssessedRecording): DrawnLine[] {
  const flat = pieces.flatMap((piece, p) => piece.alongTrack.map((s, i) => ({ p, i, on: s !== null })));
  const first = flat.findIndex(({ on }) => on);
  if (first < 0) return [];
  const last = flat.length - 1 - [...flat].reverse().findIndex(({ on }) => on);
  const [a, b] = [flat[first], flat[last]];
  return pieces.slice(a.p, b.p + 1).map((piece, k) => {
    const from = k === 0 ? a.i : 0;
    const to = k === b.p - a.p ? b.i + 1 : piece.lon.length;
    return {
      lon: piece.lon.slice(from, to),
      lat: piece.lat.slice(from, to),
      alongTrack: piece.alongTrack.slice(from, to),
    };
  });
}
