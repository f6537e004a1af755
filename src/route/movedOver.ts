import type { Position } from 'geojson';
import { turnBetween, unwrapLongitude, wrapLongitude } from '../geodesy';
import { besideLine, placesBeside } from './besideLine';
import { chordCount, linePiece, step } from './Piece';
import { placeAlong } from './placeAlong';

/** Metres that the chords of the way over lie beside its curve. */
const SAGITTA = 0.005;

/** Metres: vertices nearer to each other than this are one. */
const TOGETHER = 0.02;

/** Degrees: a bend of the line followed above this is a corner, below it part of a curve. */
const CORNER = 20;

/** Where the pen is beside a line that is being followed. */
export interface Followed {
  /** In the direction of travel. */
  readonly line: readonly Position[];
  /** Vertex index, and fraction of the edge after it. */
  readonly place: number;
  /** Metres to the right of the line; negative to its left. */
  readonly right: number;
}

interface WayOver {
  /** After the pen. */
  readonly vertices: Position[];
  /** Whether a vertex is a corner to be rounded. */
  readonly corner: boolean[];
  /** Direction of travel at the end, degrees. */
  readonly azimuth: number;
  readonly followed: Followed;
}

/**
 * The way from one distance beside a line to another while `over` metres of the line go by, by two arcs laid along it;
 * past its end the line is thought to go straight on. Undefined where that stretch of it is straight, or shorter than the
 * way across: there it is two plain arcs.
 *
 * @param metres - to the right, negative to the left
 */
export function movedOver({ line: drawn, place, right }: Followed, metres: number, over: number): WayOver | undefined {
  const size = Math.abs(metres);
  if (size > over || place >= drawn.length - 1) return undefined;
  const line = prolonged(drawn, over);
  const edges = line.slice(1).map((to, i) => linePiece(line[i], to, true, -1));
  const along = [0];
  for (const edge of edges) along.push(along[along.length - 1] + edge.length);
  const alongOf = (at: number) => {
    const edge = Math.min(Math.floor(at), edges.length - 1);
    return along[edge] + (at - edge) * edges[edge].length;
  };
  const lengths = edges.map(({ length }) => length);
  const start = alongOf(place);
  const target = placeAlong(lengths, start + over);
  const between = [...edges.keys()].filter((i) => i > place && i < target);
  if (between.length === 0) return undefined;
  const corners = between.filter((i) => Math.abs(turnBetween(edges[i - 1].endAzimuth, edges[i].startAzimuth)) > CORNER);

  const radius = (over * over + size * size) / (4 * size);
  const risen = (u: number) => radius - Math.sqrt(Math.max(radius * radius - u * u, 0));
  /** How much of the way over is done after u metres. */
  const share = (u: number) => (u <= over / 2 ? risen(Math.max(u, 0)) : size - risen(Math.max(over - u, 0))) / size;
  const chords = 2 * chordCount(radius, (2 * Math.atan(size / over) * 180) / Math.PI, SAGITTA);

  const sides = [right, right + metres].map((metresRight) => ({ metresRight, beside: besideLine(line, metresRight) }));
  const places = new Set([...corners, target]);
  for (let k = 1; k < chords; k++) places.add(placeAlong(lengths, start + (over * k) / chords));
  const vertices: Position[] = [];
  const corner: boolean[] = [];
  for (const at of [...places].sort((a, b) => a - b)) {
    const done = share(alongOf(at) - start);
    const [from, to] = sides.map(({ metresRight, beside }) => {
      const here = placesBeside(beside, Math.sign(metresRight) * beside.metres, at);
      return at === target ? here.slice(0, 1) : here;
    });
    const count = Math.max(from.length, to.length);
    for (let k = 0; k < count; k++) {
      const [a, b] = [from, to].map((list) => list[Math.round((k * (list.length - 1)) / Math.max(count - 1, 1))]);
      const turned = unwrapLongitude(b[0], a[0]) - a[0];
      const position = [wrapLongitude(a[0] + done * turned), a[1] + done * (b[1] - a[1])];
      const previous = vertices.at(-1);
      // Beside the trim of an inside corner places fall together.
      if (previous !== undefined && linePiece(previous, position, false, -1).length < TOGETHER) {
        vertices.pop();
        corner.pop();
      }
      vertices.push(position);
      corner.push(count === 1 && corners.includes(at));
    }
  }
  const last = edges[Math.min(Math.ceil(target), edges.length) - 1];
  return { vertices, corner, azimuth: last.endAzimuth, followed: { line, place: target, right: right + metres } };
}

/** A line that goes straight on past its end. */
function prolonged(line: readonly Position[], metres: number): Position[] {
  const end = line[line.length - 1];
  const before = line.filter(([lon, lat]) => lon !== end[0] || lat !== end[1]).at(-1)!;
  return [...line, step(end, linePiece(before, end, false, -1).endAzimuth, metres).to];
}
