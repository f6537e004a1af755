import { SAME_WAY } from './directionsOf';
import { nearEdges, type Patience } from './nearEdges';
import type { PassedLine } from './nextPasses';

/** Two passes of a route that cross, once or again and again. */
export interface SelfCrossing {
  /** Metres along-track of the first passage, and of the second, where they first cross. */
  readonly first: number;
  readonly second: number;
  /** The same where they last cross. */
  readonly lastFirst: number;
  readonly lastSecond: number;
  readonly count: number;
}

/** What {@link selfCrossings} finds. */
export interface SelfCrossings {
  /** The first of them, in order along the route. */
  readonly crossings: SelfCrossing[];
  /** All the others in one. */
  readonly rest?: SelfCrossing;
}

/** Metres along the route within which two passes cross again, and by how much they may differ in length until then. */
const AGAIN = 100;
const ALIKE = 5;

/** Of so many pairs of passes found last each may go on. */
const RECENT = 8;

/**
 * Where edges of a route cross each other under more than 30°: once for each pair of passes, the first `most` of them singly.
 *
 * @param isLeftOut - Edges that are not looked at: of passes that repeat another.
 */
export function selfCrossings(
  line: PassedLine,
  isLeftOut: Uint8Array,
  most: number,
  patience: Patience,
): SelfCrossings {
  const { alongTrack, vertices, boxes, longest, cosine } = line;
  const { x, y, z } = vertices;
  const edges = alongTrack.length - 1;
  // an edge rises over its chord by less than this
  const rise = longest ** 2 / 5e7;
  const listed: { -readonly [K in keyof SelfCrossing]: SelfCrossing[K] }[] = [];
  const recent: typeof listed = [];
  let rest: (typeof listed)[number] | undefined;
  const note = (first: number, second: number) => {
    const pair = recent.find((other) => {
      const [on, there] = [first - other.lastFirst, Math.abs(second - other.lastSecond)];
      return on <= AGAIN && Math.abs(on - there) <= ALIKE;
    });
    if (pair !== undefined) {
      pair.count++;
      pair.lastFirst = first;
      pair.lastSecond = second;
      return;
    }
    if (listed.length === most) {
      rest ??= { first, second, lastFirst: first, lastSecond: second, count: 0 };
      rest.count++;
      rest.lastFirst = first;
      rest.second = Math.min(rest.second, second);
      rest.lastSecond = Math.max(rest.lastSecond, second);
      return;
    }
    const crossing = { first, second, lastFirst: first, lastSecond: second, count: 1 };
    listed.push(crossing);
    if (recent.push(crossing) > RECENT) recent.shift();
  };
  for (let a = 0; a < edges && patience.left > 0; a++) {
    if (isLeftOut[a] === 1) continue;
    const radius = Math.sqrt(vertices.chord2(a)) / 2;
    const ball = {
      x: (x[a] + x[a + 1]) / 2,
      y: (y[a] + y[a + 1]) / 2,
      z: (z[a] + z[a + 1]) / 2,
      radius: 1.2 * radius + rise + 1e-3,
    };
    nearEdges(boxes, edges, a + 2, ball, patience, (b) => {
      if (isLeftOut[b] === 1 || Math.abs(cosine(a, b)) > SAME_WAY) return false;
      const fractions = crossingOf(line, a, b);
      if (fractions === undefined) return false;
      const along = (edge: number, fraction: number) =>
        alongTrack[edge] + fraction * (alongTrack[edge + 1] - alongTrack[edge]);
      note(along(a, fractions[0]), along(b, fractions[1]));
      return false;
    });
  }
  return { crossings: listed, ...(rest === undefined ? {} : { rest }) };
}

/** Where on two edges they cross, as fractions in [0, 1): a vertex belongs to the edge it starts. Straight in degrees. */
function crossingOf({ lon, lat }: PassedLine, a: number, b: number): [number, number] | undefined {
  const shift = 360 * Math.round((lon[b] - lon[a]) / 360);
  const [ax, ay] = [lon[a + 1] - lon[a], lat[a + 1] - lat[a]];
  const [bx, by] = [lon[b + 1] - lon[b], lat[b + 1] - lat[b]];
  const [x, y] = [lon[b] - shift - lon[a], lat[b] - lat[a]];
  const across = ax * by - ay * bx;
  const t = (x * by - y * bx) / across;
  const u = (x * ay - y * ax) / across;
  return t >= 0 && t < 1 && u >= 0 && u < 1 ? [t, u] : undefined;
}
