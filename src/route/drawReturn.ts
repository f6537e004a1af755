import type { Position } from 'geojson';
import type { Beside } from '../model';
import { type Draft, penOf } from './Draft';
import { drawLine } from './drawLine';
import { offsetLine, wideOffsetMessage } from './offsetLine';
import { arcPiece, reversedPiece, verticesOf } from './Piece';

/** Chords of an arc that is run beside: fine enough that the line beside it, rounded again, shows none of them. */
const ARC_SAGITTA = 0.002;

/**
 * Draws the way back of an out-and-back whose way out is the pieces from `fromNode` on: on the same line, or beside it
 * after a semicircle to that side. Sections of the way out get their like on the way back.
 */
export function drawReturn(draft: Draft, fromNode: number, opened: number, beside: Beside | undefined): void {
  const out = draft.pieces.slice(fromNode);
  const turnNode = draft.pieces.length;
  /** The node of the way back beside each node of the way out. */
  const returnNode = beside === undefined ? drawSameLine(draft, out) : drawBeside(draft, out, beside);
  draft.azimuth = draft.pieces[draft.pieces.length - 1].endAzimuth;
  for (let k = 1; k < out.length; k++) {
    const radius = draft.cornerRadii.get(fromNode + k);
    if (radius !== undefined) draft.cornerRadii.set(returnNode[k], radius);
  }
  const sections = draft.sections
    .slice(opened)
    .filter(({ from, inside }) => from === undefined && inside === undefined);
  for (const section of sections.reverse()) {
    draft.sections.push({
      ...section,
      name: `${section.name}, back`,
      fromNode: section.toNode === turnNode ? turnNode : returnNode[section.toNode! - fromNode],
      toNode: returnNode[section.fromNode - fromNode],
    });
  }
}

function drawSameLine(draft: Draft, out: readonly Draft['pieces'][number][]): number[] {
  const turnNode = draft.pieces.length;
  for (let k = out.length - 1; k >= 0; k--) draft.pieces.push(reversedPiece(out[k], out[k + 1]?.corner ?? false));
  return Array.from({ length: out.length + 1 }, (_, node) => turnNode + out.length - node);
}

function drawBeside(draft: Draft, out: readonly Draft['pieces'][number][], { side, metres }: Beside): number[] {
  const turnNode = draft.pieces.length;
  const line: Position[] = [out[0].from];
  const curved = [false];
  const vertexOf = [0];
  const origins: number[] = [];
  for (const piece of out) {
    const vertices = piece.kind === 'line' ? [piece.to] : verticesOf(piece, Number.POSITIVE_INFINITY, ARC_SAGITTA);
    curved[curved.length - 1] ||= piece.kind === 'arc' || !piece.corner;
    line.push(...vertices);
    curved.push(...vertices.map(() => piece.kind === 'arc'));
    origins.push(...vertices.map(() => piece.origin));
    vertexOf.push(line.length - 1);
  }
  const last = out[out.length - 1];
  const ends = [out[0].startAzimuth, last.endAzimuth] as const;
  const { vertices, source, smooth, wide, metres: kept } = offsetLine(line, side, metres, { ends });
  const turn = arcPiece(last.to, last.endAzimuth, { turn: side, radius: metres / 2, sweep: 180 }, last.origin);
  draft.pieces.push(turn);
  const nodes: number[] = [];
  const outer = draft.origin;
  for (let k = vertices.length - 1; k >= 0; k--) {
    draft.origin = origins[Math.min(Math.floor(source[k]), origins.length - 1)];
    const curve = smooth[k + 1] || curved[Math.round(source[Math.min(k + 1, source.length - 1)])];
    drawLine(draft, vertices[k], penOf(draft)!, !curve);
    nodes[k] = draft.pieces.length;
  }
  draft.origin = outer;
  if (wide.length > 0) {
    draft.warnings.push({
      reason: 'wide-offset',
      fromNode: turnNode,
      toNode: draft.pieces.length,
      message: wideOffsetMessage(metres, kept),
    });
  }
  return vertexOf.map((vertex) => {
    const beside = source.findIndex((at) => at >= vertex);
    return nodes[beside === -1 ? vertices.length - 1 : beside];
  });
}
