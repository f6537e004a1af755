import type { Position } from 'geojson';
import { EdgeFeet } from '../geodesy';
import type { LinePiece } from './Piece';

/** Metres by which a point must be too near to be cut with what is beside it: above the rounding of the measure. */
const ROUNDING = 1e-6;

/** Metres by which a point must be too near to be cut for itself. Half the promised millimetre. */
const TOO_NEAR = 5e-4;

/** Whether points beside a line are nearer to it than they should be; `source` is where on it, edge index and fraction. */
export interface Nearness {
  /** To its own surroundings: as far along the line as half a circle of the offset's radius, so that other passages don't count. */
  readonly isTooNear: (position: Position, source: number) => boolean;
  /** Looking as far past `centre`, the middle of a loop, as `source` lies before it. */
  readonly isInLoop: (position: Position, source: number, centre: number) => boolean;
}

/** Judges points that should be `metres` from edges; those of a ring go round. */
export function nearness(edges: readonly LinePiece[], metres: number, ring: boolean): Nearness {
  // A ring is laid out three times: from the middle one there is as much line on either side as a loop can take.
  const laid = ring ? [...edges, ...edges, ...edges] : edges;
  const shift = ring ? edges.length : 0;
  const count = laid.length;
  const along = new Float64Array(count + 1);
  // Each edge by its own ends: those of a ring need not meet at its start to the last centimetre.
  const lon = new Float64Array(2 * count);
  const lat = new Float64Array(2 * count);
  for (let i = 0; i < count; i++) {
    const { from, to, length } = laid[i];
    along[i + 1] = along[i] + length;
    lon[2 * i] = from[0];
    lat[2 * i] = from[1];
    lon[2 * i + 1] = to[0];
    lat[2 * i + 1] = to[1];
  }
  const feet = new EdgeFeet(lon, lat);
  const edgeAt = (source: number) => Math.min(Math.floor(source) + shift, count - 1);
  const alongOf = (source: number) => {
    const edge = edgeAt(source);
    return along[edge] + (source + shift - edge) * laid[edge].length;
  };
  const isWithin = (position: Position, distance: number, centre: number, reach: number) => {
    const middle = alongOf(centre);
    const start = edgeAt(centre);
    feet.moveTo(position[0], position[1]);
    for (let edge = start; edge < count && along[edge] <= middle + reach; edge++) {
      if (feet.measure(2 * edge) < distance) return true;
    }
    for (let edge = start - 1; edge >= 0 && along[edge + 1] >= middle - reach; edge--) {
      if (feet.measure(2 * edge) < distance) return true;
    }
    return false;
  };
  return {
    isTooNear: (position, source) => isWithin(position, metres - TOO_NEAR, source, Math.PI * metres),
    isInLoop: (position, source, centre) => {
      const reach = 2 * Math.abs(alongOf(source) - alongOf(centre)) + 4 * metres;
      return isWithin(position, metres - ROUNDING, centre, reach);
    },
  };
}
