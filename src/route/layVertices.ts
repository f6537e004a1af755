import type { Position } from 'geojson';
import { Geodesic, Sum, unwrapLongitude, WGS84 } from '../geodesy';
import type { Arc, ProvenanceStretch, Route } from '../model';
import { checkVertexCount } from './checkVertexCount';
import type { Draft } from './Draft';
import { edgeCount, verticesOf } from './Piece';
import type { RoundedLine } from './roundCorners';

/** A drawn line as vertices. */
export interface LaidLine {
  readonly columns: Pick<Route, 'lon' | 'lat' | 'alongTrack' | 'length' | 'arcs' | 'provenance' | 'lateral95'>;
  /** Metres along-track at each node of the draft. */
  readonly alongNode: number[];
}

/** Sets the vertices along the pieces, measures them, and finds every node again by its along-track. */
export function layVertices(
  { pieces, piecesBefore }: RoundedLine,
  draft: Draft,
  { maxSpacing, maxSagitta, lateral95 }: { maxSpacing: number; maxSagitta: number; lateral95: number | undefined },
): LaidLine {
  let count = 1;
  for (const piece of pieces) count += edgeCount(piece, maxSpacing, maxSagitta);
  checkVertexCount(count);
  const lon = new Float64Array(count);
  const lat = new Float64Array(count);
  const alongTrack = new Float64Array(count);
  const uncertainty = new Float64Array(count);
  const alongPiece = new Float64Array(pieces.length + 1);
  const arcs: Arc[] = [];
  const sum = new Sum();
  let vertex = 0;
  const place = ([longitude, latitude]: Position) => {
    lon[vertex] = vertex === 0 ? longitude : unwrapLongitude(longitude, lon[vertex - 1]);
    lat[vertex] = latitude;
  };
  place(draft.start!);
  pieces.forEach((piece, k) => {
    const { origin } = piece;
    const stated = draft.provenances[origin]?.lateral95 ?? lateral95 ?? Number.NaN;
    uncertainty[vertex] = stated;
    const vertices = verticesOf(piece, maxSpacing, maxSagitta);
    for (const position of vertices) {
      vertex++;
      place(position);
      uncertainty[vertex] = stated;
      sum.add(
        piece.kind === 'line'
          ? piece.length / vertices.length
          : WGS84.Inverse(lat[vertex - 1], lon[vertex - 1], lat[vertex], lon[vertex], Geodesic.DISTANCE).s12!,
      );
      alongTrack[vertex] = sum.value;
    }
    alongPiece[k + 1] = sum.value;
    if (piece.kind === 'arc') {
      const { turn, radius, length } = piece;
      const before = pieces[k - 1];
      // a fillet comes in two parts, so that its corner has a node: parts of one arc share its centre
      const first = before?.kind === 'arc' && before.centre === piece.centre && before.turn === turn && arcs.pop();
      arcs.push({
        from: first ? first.from : alongPiece[k],
        to: alongPiece[k + 1],
        turn,
        radius,
        length: first ? first.length + length : length,
      });
    }
  });
  const provenance: ProvenanceStretch[] = [];
  let from = 0;
  for (let k = 1; k <= pieces.length; k++) {
    if (k < pieces.length && pieces[k].origin === pieces[k - 1].origin) continue;
    const stated = draft.provenances[pieces[k - 1].origin];
    if (stated !== undefined) provenance.push({ ...stated, from, to: alongPiece[k] });
    from = alongPiece[k];
  }
  return {
    columns: { lon, lat, alongTrack, length: sum.value, arcs, provenance, lateral95: uncertainty },
    alongNode: piecesBefore.map((before) => alongPiece[before]),
  };
}
