import type { Position } from 'geojson';
import { turnBetween } from '../geodesy';
import type { OffsetJoin } from '../model';
import { chordCount, type LinePiece, quickStep } from './Piece';

/** A line beside another, before what is too near is cut from it. */
export interface OffsetPath {
  readonly vertices: Position[];
  /** Where on the source each vertex was made: edge index and fraction. Never falling. */
  readonly source: number[];
  /** Whether a vertex is part of a curve round a corner. */
  readonly smooth: boolean[];
  /** Whether the edge that ends at the vertex only bridges the two sides of an inside corner. */
  readonly bridge: boolean[];
}

/** Degrees: a turn at least this sharp is a U-turn, gone round at its tip on either side. */
const U_TURN = 179;

/** Metres: a corner of the offset may lie this much further away than asked, to save two vertices. Half the promised millimetre. */
const MITRE_SLACK = 5e-4;

/** Metres that the chords of a round join lie inside its circle. Half the promised millimetre. */
const JOIN_SAGITTA = 5e-4;

/** A mitre longer than this many offsets is cut off as a bevel. */
const MITRE_LIMIT = 2;

/**
 * The line beside edges, corner by corner: mitred where both edges are long enough for it, round, mitred or bevelled
 * outside, bridged inside where an edge is too short.
 *
 * @param right - 1 to the right of travel, -1 to the left
 */
export function rawOffset(edges: readonly LinePiece[], right: number, metres: number, join: OffsetJoin): OffsetPath {
  const path: OffsetPath = { vertices: [], source: [], smooth: [], bridge: [] };
  const add = (at: Position, azimuth: number, distance: number, source: number, smooth = false, bridge = false) => {
    path.vertices.push(quickStep(at, azimuth, distance));
    path.source.push(source);
    path.smooth.push(smooth);
    path.bridge.push(bridge);
  };
  /** At the corner before edge i: signed towards the offset side. */
  const bends = new Float64Array(edges.length);
  const trims = new Float64Array(edges.length + 1);
  for (let i = 1; i < edges.length; i++) {
    bends[i] = right * turnBetween(edges[i - 1].endAzimuth, edges[i].startAzimuth);
    if (bends[i] > 0) trims[i] = metres * Math.tan((Math.min(bends[i], U_TURN) * Math.PI) / 360);
  }
  const isRoomy = (i: number) => trims[i] + trims[i + 1] <= edges[i].length;
  const normal = 90 * right;
  add(edges[0].from, edges[0].startAzimuth + normal, metres, 0);
  for (let i = 1; i < edges.length; i++) {
    const before = edges[i - 1];
    const after = edges[i];
    const bend = bends[i];
    const corner = after.from;
    const arriving = before.endAzimuth + normal;
    const leaving = after.startAzimuth + normal;
    const half = (bend * Math.PI) / 360;
    const reach = metres / Math.cos(half);
    const uTurn = Math.abs(bend) >= U_TURN;
    if (!uTurn && (bend > 0 ? isRoomy(i - 1) && isRoomy(i) : reach - metres <= MITRE_SLACK)) {
      add(corner, arriving + (right * bend) / 2, reach, i);
      continue;
    }
    if (bend > 0 && !uTurn) {
      add(corner, arriving, metres, i);
      add(corner, leaving, metres, i, false, true);
      continue;
    }
    // Outside, the azimuth of the normal turns away by the bend; at the tip of a U-turn always away.
    const sweep = bend > 0 ? 360 - bend : -bend;
    if (join === 'mitre' && 1 / Math.cos(half) <= MITRE_LIMIT && !uTurn) {
      add(corner, arriving + (right * bend) / 2, reach, i);
    } else {
      const count = join === 'round' ? chordCount(metres, sweep, JOIN_SAGITTA) : 1;
      for (let k = 0; k <= count; k++) {
        add(corner, arriving - (right * sweep * k) / count, metres, i, join === 'round');
      }
    }
  }
  const last = edges[edges.length - 1];
  add(last.to, last.endAzimuth + normal, metres, edges.length);
  return path;
}
