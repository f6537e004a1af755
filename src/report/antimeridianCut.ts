import type { Position } from 'geojson';
import { wrapLongitude } from '../geodesy';

/** A line whose longitudes run on past ±180°, cut there: each part within [-180, 180], the cut point in both. */
export function antimeridianCut(line: readonly Position[]): Position[][] {
  const parts: Position[][] = [];
  let part: Position[] = [];
  let turn = 0;
  line.forEach(([longitude, latitude], i) => {
    const here = Math.floor((longitude + 180) / 360);
    if (i === 0) turn = here;
    else if (here !== turn) {
      const [before, beforeLatitude] = line[i - 1];
      const meridian = 360 * Math.max(here, turn) - 180;
      const fraction = (meridian - before) / (longitude - before);
      const crossing = beforeLatitude + fraction * (latitude - beforeLatitude);
      const side = here > turn ? 180 : -180;
      part.push([side, crossing]);
      parts.push(part);
      part = [[-side, crossing]];
      turn = here;
    }
    part.push([wrapLongitude(longitude), latitude]);
  });
  parts.push(part);
  return parts.filter(({ length }) => length > 1);
}
