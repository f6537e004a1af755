import type { Position } from 'geojson';

/** Degrees, a tenth of a millimetre: edges that cross by less only touch. */
const TOUCH = 1e-9;

/** Radians: ways that part by less run along each other. */
const SAME_WAY = 1e-9;

/** Up to so many edges each is compared with each. */
const FEW = 12;

/** A place at which a ring crosses itself, and the edges that do. */
interface RingCrossing {
  readonly at: Position;
  readonly edges: readonly [number, number];
}

/**
 * Where a closed ring crosses itself, within edges or at a vertex: the first place found, and the edges that meet there; undefined
 * where it doesn't. Edges that touch don't cross, nor do those that run along each other, whichever side they leave on.
 *
 * @param x - Longitudes, continuous, the last vertex again the first.
 * @remarks Edges are compared with those whose longitudes overlap, vertices with those at the same place: n log n for rings
 * of short edges.
 */
export function ringCrossing(x: ArrayLike<number>, y: ArrayLike<number>): RingCrossing | undefined {
  const edges = x.length - 1;
  if (edges <= FEW) {
    for (let i = 0; i < edges; i++) {
      for (let j = i + 2; j < edges; j++) {
        const found = edgeCrossing(x, y, i, j) ?? (samePlace(x, y, i, j) ? vertexCrossing(x, y, i, j) : undefined);
        if (found) return found;
      }
    }
    return undefined;
  }
  const west = Float64Array.from({ length: edges }, (_, i) => Math.min(x[i], x[i + 1]));
  const order = Int32Array.from({ length: edges }, (_, i) => i).sort((a, b) => west[a] - west[b]);
  for (let k = 0; k < edges; k++) {
    const i = order[k];
    const east = Math.max(x[i], x[i + 1]);
    const south = Math.min(y[i], y[i + 1]);
    const north = Math.max(y[i], y[i + 1]);
    for (let l = k + 1; l < edges && west[order[l]] <= east; l++) {
      const j = order[l];
      if (Math.max(y[j], y[j + 1]) < south || Math.min(y[j], y[j + 1]) > north) continue;
      const found = edgeCrossing(x, y, i, j);
      if (found) return found;
    }
  }
  const placed = order.sort((a, b) => x[a] - x[b] || y[a] - y[b]);
  for (let k = 0; k < edges; k++) {
    for (let l = k + 1; l < edges && samePlace(x, y, placed[k], placed[l]); l++) {
      const found = vertexCrossing(x, y, placed[k], placed[l]);
      if (found) return found;
    }
  }
  return undefined;
}

/** Where edges `i` and `j` cross: both ends of each surely on two sides of the other, or where one passes by its end. */
function edgeCrossing(x: ArrayLike<number>, y: ArrayLike<number>, i: number, j: number): RingCrossing | undefined {
  const ix = x[i + 1] - x[i];
  const iy = y[i + 1] - y[i];
  const first = ix * (y[j] - y[i]) - iy * (x[j] - x[i]);
  const second = ix * (y[j + 1] - y[i]) - iy * (x[j + 1] - x[i]);
  const least = TOUCH * Math.hypot(ix, iy);
  if (first * second > 0 && Math.abs(second) > least) return undefined;
  if (Math.abs(second) <= least) return passing(x, y, j, i);
  const jx = x[j + 1] - x[j];
  const jy = y[j + 1] - y[j];
  const third = jx * (y[i] - y[j]) - jy * (x[i] - x[j]);
  const fourth = jx * (y[i + 1] - y[j]) - jy * (x[i + 1] - x[j]);
  const little = TOUCH * Math.hypot(jx, jy);
  if (Math.abs(fourth) <= little) return passing(x, y, i, j);
  if (third * fourth >= 0 || Math.abs(first) <= least || Math.abs(third) <= little) return undefined;
  return crossing([x[i] + (third / (third - fourth)) * ix, y[i] + (third / (third - fourth)) * iy], i, j);
}

/** Where edge `i` ends on edge `j`, away from its ends: the crossing, if the ring goes on surely on the other side. */
function passing(x: ArrayLike<number>, y: ArrayLike<number>, i: number, j: number): RingCrossing | undefined {
  const corner = (i + 1) % (x.length - 1);
  const [jx, jy] = [x[j + 1] - x[j], y[j + 1] - y[j]];
  const length = Math.hypot(jx, jy);
  const along = ((x[corner] - x[j]) * jx + (y[corner] - y[j]) * jy) / length;
  if (!(along > TOUCH && along < length - TOUCH)) return undefined;
  const aside = (k: number) => (jx * (y[k] - y[j]) - jy * (x[k] - x[j])) / length;
  const [before, after] = [aside(next(x, y, corner, -1)), aside(next(x, y, corner, 1))];
  if (before * after >= 0 || Math.min(Math.abs(before), Math.abs(after)) <= TOUCH) return undefined;
  return crossing([x[corner], y[corner]], i, j);
}

/** Whether the ring crosses itself at a place at which it has two vertices: leaving it between the first two ways and beside them in turn. */
function vertexCrossing(x: ArrayLike<number>, y: ArrayLike<number>, i: number, j: number): RingCrossing | undefined {
  const way = (k: number, step: 1 | -1): [number, number] => {
    const to = next(x, y, k, step);
    return [x[to] - x[k], y[to] - y[k]];
  };
  const came = way(i, -1);
  // counter-clockwise from where the ring first came, in (0, 2π)
  const turns = [way(i, 1), way(j, -1), way(j, 1)].map(([east, north]) => {
    const angle = Math.atan2(came[0] * north - came[1] * east, came[0] * east + came[1] * north);
    return angle < 0 ? angle + 2 * Math.PI : angle;
  });
  const [leaves, comesAgain, leavesAgain] = turns;
  const same = (a: number, b: number) => Math.abs(a - b) <= SAME_WAY || Math.abs(a - b) >= 2 * Math.PI - SAME_WAY;
  if (turns.some((turn) => same(turn, 0)) || same(leaves, comesAgain) || same(leaves, leavesAgain)) return undefined;
  return comesAgain < leaves === leavesAgain < leaves ? undefined : crossing([x[i], y[i]], i, j);
}

/** The nearest vertex before or after one that lies at another place; itself where none does. */
function next(x: ArrayLike<number>, y: ArrayLike<number>, vertex: number, step: 1 | -1): number {
  const count = x.length - 1;
  let k = vertex;
  for (let steps = 0; steps < count && x[k] === x[vertex] && y[k] === y[vertex]; steps++)
    k = (k + step + count) % count;
  return k;
}

function samePlace(x: ArrayLike<number>, y: ArrayLike<number>, i: number, j: number): boolean {
  return x[i] === x[j] && y[i] === y[j];
}

function crossing(at: Position, i: number, j: number): RingCrossing {
  return { at, edges: [Math.min(i, j), Math.max(i, j)] };
}
