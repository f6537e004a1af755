import type { Position } from 'geojson';
import { wrapLongitude } from './longitude';

/** A piece of a line, with the index in the line of each of its positions; -1 for one put in at the meridian. */
export interface CutPart {
  readonly positions: Position[];
  readonly fixes: number[];
}

/**
 * The line in pieces none of which crosses the ±180° meridian: where it does, both pieces get a point on it, straight in
 * degrees. Longitudes may run on past ±180°; those of the pieces lie within [-180, 180]. Positions that lie there are the given
 * ones, not copies.
 *
 * @see RFC 7946, 3.1.9
 */
export function cutAtAntimeridian(line: readonly Position[]): CutPart[] {
  const parts: CutPart[] = [{ positions: [], fixes: [] }];
  let part = parts[0];
  let before: Position = [];
  for (let i = 0; i < line.length; i++) {
    const given = line[i];
    const longitude = wrapLongitude(given[0]);
    const position = longitude === given[0] ? given : [longitude, ...given.slice(1)];
    if (i > 0 && Math.abs(longitude - before[0]) > 180) {
      const side = before[0] < 0 ? -180 : 180;
      // how far from `before` to `position`, the one unwrapped beside the other
      const share = (side - before[0]) / (longitude + 2 * side - before[0]);
      const lat = before[1] + (Number.isFinite(share) ? share : 0) * (position[1] - before[1]);
      part.positions.push([side, lat]);
      part.fixes.push(-1);
      part = { positions: [[-side, lat]], fixes: [-1] };
      parts.push(part);
    }
    part.positions.push(position);
    part.fixes.push(i);
    before = position;
  }
  return parts;
}
