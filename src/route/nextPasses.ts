import { EdgeFeet } from '../geodesy';
import type { EdgeBoxes, Vertices } from '../index';
import type { Route } from '../model';
import { SAME_WAY } from './directionsOf';
import { nearEdges, type Patience } from './nearEdges';
import type { RepeatedStretch } from './RepeatedStretch';
import { type Meeting, Repetitions, SHORTEST } from './Repetitions';

/** A route as its passes are looked for. */
export interface PassedLine extends Pick<Route, 'lon' | 'lat' | 'alongTrack'> {
  readonly vertices: Vertices;
  readonly boxes: EdgeBoxes;
  /** Metres of the longest edge. */
  readonly longest: number;
  readonly cosine: (a: number, b: number) => number;
}

/**
 * Each stretch of a route with the next one, in either direction, that runs along it within so many metres: three laps give two
 * pairs, the first lap with the second and the second with the third.
 *
 * @remarks A search for each vertex, through boxes in the order of the line, that stops at the first edge that is such a
 * pass: what comes after it is not looked at, so that the time doesn't grow with the number of passes.
 */
export function nextPasses(line: PassedLine, maxDistance: number, patience: Patience): RepeatedStretch[] {
  const { lon, lat, alongTrack, vertices, boxes, longest, cosine } = line;
  const { x, y, z } = vertices;
  const edges = lon.length - 1;
  const feet = new EdgeFeet(lon, lat);
  const repetitions = new Repetitions(maxDistance, longest);
  const along = (edge: number) => alongTrack[edge] + feet.fraction * (alongTrack[edge + 1] - alongTrack[edge]);
  for (let i = 0; i <= edges; i++) {
    const here = alongTrack[i];
    const edge = Math.min(i, edges - 1);
    const clear = here + SHORTEST * maxDistance;
    feet.moveTo(lon[i], lat[i]);
    const isPass = (j: number) => {
      const way = cosine(edge, j);
      if (Math.abs(way) <= SAME_WAY || (way > 0 && alongTrack[j + 1] < clear)) return false;
      return feet.measure(j) <= maxDistance && (way < 0 || along(j) >= clear);
    };
    const ball = { x: x[i], y: y[i], z: z[i], radius: maxDistance };
    let found = nearEdges(boxes, edges, edge + 1, ball, patience, isPass);
    const meetings: Meeting[] = [];
    if (found >= 0) {
      const direction = cosine(edge, found) > 0 ? 'same' : 'opposite';
      let distance = feet.measure(found);
      // where the pass comes within reach it is not yet nearest
      while (found + 1 < edges && cosine(edge, found + 1) > 0 === (direction === 'same')) {
        const next = feet.measure(found + 1);
        if (!(next < distance)) break;
        distance = next;
        found++;
        patience.left--;
      }
      feet.measure(found);
      meetings.push({ direction, at: along(found), distance });
    }
    repetitions.add(i, here, meetings);
  }
  repetitions.end();
  return repetitions.repeats;
}
