import type { Position } from 'geojson';
import { Geodesic, quickDirect, quickInverse, WGS84, wrapAzimuth, wrapLongitude } from '../geodesy';
import type { Side } from '../model';

interface PieceBase {
  readonly from: Position;
  readonly to: Position;
  /** Metres along the piece itself. */
  readonly length: number;
  /** Direction of travel at either end, degrees. */
  readonly startAzimuth: number;
  readonly endAzimuth: number;
  /** Whether the bend at its start is a corner that may be rounded. */
  readonly corner: boolean;
  /** Which of the stated provenances it has; -1 none. */
  readonly origin: number;
}

/** A geodesic. */
export interface LinePiece extends PieceBase {
  readonly kind: 'line';
}

/** A stretch of the circle of all points `radius` from `centre`. */
export interface ArcPiece extends PieceBase {
  readonly kind: 'arc';
  readonly centre: Position;
  readonly radius: number;
  readonly turn: Side;
  /** Azimuth at the centre towards `from`, degrees. */
  readonly centreAzimuth: number;
  /** Degrees, positive. */
  readonly sweep: number;
}

export type Piece = LinePiece | ArcPiece;

/** Closer than this, in metres, two points are the same point said twice: a direction between them would be rounding. */
export const SAME_POINT = 1e-6;

const POSITION = Geodesic.LATITUDE | Geodesic.LONGITUDE;

/** As the geodesic direct problem, unchecked: for numbers that have been checked. */
export function step(from: Position, azimuth: number, distance: number): { to: Position; azimuth: number } {
  const { lat2, lon2, azi2 } = WGS84.Direct(from[1], from[0], azimuth, distance, POSITION | Geodesic.AZIMUTH);
  return { to: [wrapLongitude(lon2!), lat2!], azimuth: azi2! };
}

/** The geodesic between two points. */
export function linePiece(from: Position, to: Position, corner: boolean, origin: number): LinePiece {
  const { s12, azi1, azi2 } = WGS84.Inverse(from[1], from[0], to[1], to[0], Geodesic.DISTANCE | Geodesic.AZIMUTH);
  return { kind: 'line', from, to, length: s12!, startAzimuth: azi1!, endAzimuth: azi2!, corner, origin };
}

/** As {@link step}, within 4e-9 m: for what is measured many times. */
export function quickStep(from: Position, azimuth: number, distance: number): Position {
  const { lat2, lon2 } = quickDirect(from[0], from[1], azimuth, distance);
  return [wrapLongitude(lon2), lat2];
}

/** As {@link linePiece}, within 4e-9 m: for what is measured many times. */
export function quickPiece(from: Position, to: Position): LinePiece {
  const { s12, azi1, azi2 } = quickInverse(from[0], from[1], to[0], to[1]);
  return { kind: 'line', from, to, length: s12, startAzimuth: azi1, endAzimuth: azi2, corner: true, origin: -1 };
}

/** The arc that leaves `from` in the direction `azimuth` and turns by `sweep` degrees. */
export function arcPiece(
  from: Position,
  azimuth: number,
  { turn, radius, sweep }: { turn: Side; radius: number; sweep: number },
  origin: number,
): ArcPiece {
  const right = turn === 'right' ? 1 : -1;
  const inward = step(from, azimuth + 90 * right, radius);
  const centre = inward.to;
  const centreAzimuth = wrapAzimuth(inward.azimuth + 180);
  const end = step(centre, centreAzimuth + right * sweep, radius);
  return {
    kind: 'arc',
    from,
    to: end.to,
    length: arcLength(centre, centreAzimuth + (right * sweep) / 2, radius, sweep),
    startAzimuth: wrapAzimuth(azimuth),
    endAzimuth: wrapAzimuth(end.azimuth + 90 * right),
    corner: false,
    origin,
    centre,
    radius,
    turn,
    centreAzimuth,
    sweep,
  };
}

/** Metres of arc: the circle's circumference on the ellipsoid grows with the reduced length of its radius, not with the radius. */
function arcLength(centre: Position, azimuth: number, radius: number, sweep: number): number {
  const { m12 } = WGS84.Direct(centre[1], centre[0], azimuth, radius, Geodesic.REDUCEDLENGTH);
  return (m12! * sweep * Math.PI) / 180;
}

/** The part of an arc between two of its angles, degrees from its start. */
export function partOfArc(arc: ArcPiece, fromSweep: number, toSweep: number): ArcPiece {
  const right = arc.turn === 'right' ? 1 : -1;
  const at = (angle: number) => step(arc.centre, arc.centreAzimuth + right * angle, arc.radius);
  const [start, end] = [at(fromSweep), at(toSweep)];
  const sweep = toSweep - fromSweep;
  return {
    ...arc,
    from: fromSweep === 0 ? arc.from : start.to,
    to: toSweep === arc.sweep ? arc.to : end.to,
    length: (arc.length * sweep) / arc.sweep,
    startAzimuth: wrapAzimuth(start.azimuth + 90 * right),
    endAzimuth: wrapAzimuth(end.azimuth + 90 * right),
    centreAzimuth: arc.centreAzimuth + right * fromSweep,
    sweep,
  };
}

/** The part of a line between two distances from its start, metres. */
export function partOfLine(line: LinePiece, from: number, to: number): LinePiece {
  const start = from === 0 ? { to: line.from, azimuth: line.startAzimuth } : step(line.from, line.startAzimuth, from);
  const end = to === line.length ? { to: line.to, azimuth: line.endAzimuth } : step(line.from, line.startAzimuth, to);
  return {
    ...line,
    from: start.to,
    to: end.to,
    length: to - from,
    startAzimuth: start.azimuth,
    endAzimuth: end.azimuth,
  };
}

/** The same piece travelled the other way. */
export function reversedPiece(piece: Piece, corner: boolean): Piece {
  const turned = {
    from: piece.to,
    to: piece.from,
    startAzimuth: wrapAzimuth(piece.endAzimuth + 180),
    endAzimuth: wrapAzimuth(piece.startAzimuth + 180),
    corner,
  };
  if (piece.kind === 'line') return { ...piece, ...turned };
  const right = piece.turn === 'right' ? 1 : -1;
  return {
    ...piece,
    ...turned,
    turn: piece.turn === 'right' ? 'left' : 'right',
    centreAzimuth: piece.centreAzimuth + right * piece.sweep,
  };
}

/** The vertices of a piece after its first, edges at most `maxSpacing` long and chords within `maxSagitta` of an arc. */
export function verticesOf(piece: Piece, maxSpacing: number, maxSagitta: number): Position[] {
  const count = edgeCount(piece, maxSpacing, maxSagitta);
  const vertices: Position[] = [];
  if (piece.kind === 'line') {
    if (count > 1) {
      const line = WGS84.DirectLine(
        piece.from[1],
        piece.from[0],
        piece.startAzimuth,
        piece.length,
        POSITION | Geodesic.DISTANCE_IN,
      );
      for (let k = 1; k < count; k++) {
        const { lat2, lon2 } = line.Position((piece.length * k) / count, POSITION);
        vertices.push([wrapLongitude(lon2!), lat2!]);
      }
    }
  } else {
    const right = piece.turn === 'right' ? 1 : -1;
    for (let k = 1; k < count; k++) {
      vertices.push(step(piece.centre, piece.centreAzimuth + (right * piece.sweep * k) / count, piece.radius).to);
    }
  }
  vertices.push(piece.to);
  return vertices;
}

/** How many edges stand for a piece. */
export function edgeCount(piece: Piece, maxSpacing: number, maxSagitta: number): number {
  // A length that is a whole number of spacings but for rounding needs no edge more.
  const spaced = Math.max(1, Math.ceil(piece.length / maxSpacing - 1e-9));
  if (piece.kind === 'line') return spaced;
  return Math.max(spaced, chordCount(piece.radius, piece.sweep, maxSagitta));
}

/**
 * How many equal chords keep within `sagitta` metres of an arc, never fewer than one a quarter turn.
 *
 * A chord over the angle δ lies r (1 − cos δ/2) inside.
 */
export function chordCount(radius: number, sweep: number, sagitta: number): number {
  const half = Math.acos(Math.max(1 - sagitta / radius, Math.SQRT1_2));
  return Math.max(1, Math.ceil((sweep * Math.PI) / 180 / (2 * half) - 1e-9));
}
