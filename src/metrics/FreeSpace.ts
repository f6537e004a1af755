import { Curve } from './Curve';
import { FreeInterval } from './FreeInterval';
import { NotedSweep, type Way } from './NotedSweep';
import { pathCrosses } from './pathCrosses';
import { type Column, SweepFront } from './SweepFront';
import { shareAPlace } from './shareAPlace';

/**
 * Distances up to this much over the one asked for count as within, in metres: the last bits of earth-centred coordinates
 * are a nanometre, and a leash that fits exactly must fit.
 */
const TOLERANCE = 1e-7;

// A path that hops into a dead end is tried again from so many vertices of a before it.
const BACK = [0, 8, 64];

// Dead ends in so many vertices are worth it: a sweep from a single pair fills its first column cell by cell.
const DEAD_ENDS = 4;
const DEAD_END_EVERY = 4096;

// Cells for each vertex that are swept before a path is looked for, that this may try, and by how much either grows in turn.
const SWEPT = 2;
const TRIED = 4;
const MORE = 4;

// A way past where it is stuck ends so many vertices on.
const ON = 256;

// Cells at the least to look at for a way past where it is stuck; else so many a vertex, and more where that told nothing.
const LEAST_PASSED = 2 ** 15;
const PASSED = 16;

/**
 * The free space of two curves: where their places are within a distance of each other.
 *
 * Whether it can be crossed is first tried by hopping from vertex to vertex, which is enough for most distances that are;
 * else the diagram is swept. Where there is much of it, some path is looked for, and it is swept from both ends in turns
 * until either gets stuck or both meet: of two lines about one place most is free, and what isn't is near an end.
 *
 * @see Alt, Godau, Computing the Fréchet distance between two polygonal curves, IJCGA 5 (1995),
 * doi:10.1142/S0218195995000064
 */
export class FreeSpace {
  readonly #a: Curve;
  readonly #b: Curve;
  readonly #front: SweepFront;
  readonly #forth: NotedSweep;
  #back: NotedSweep | undefined;
  #thorough = 1;
  /** The sweep that got stuck, and the ways past that place, each longer than the one before. */
  #blocked: { readonly sweep: NotedSweep; readonly ways: readonly Way[] } | undefined;
  /** The vertex of `a` past which the last crossing that failed could not go, counted from where it began. */
  stuck = 0;
  /** Where it began: at the starts of the lines, or at their ends. */
  from: 'start' | 'end' = 'start';

  constructor(a: Curve, b: Curve) {
    this.#a = a;
    this.#b = b;
    this.#front = new SweepFront(a, b);
    this.#forth = new NotedSweep(a, b);
  }

  /** Whether a monotone path leads from both starts to both ends, all within `distance` metres: whether it is Fréchet's. */
  crosses(distance: number): boolean {
    const [a, b] = [this.#a, this.#b];
    this.stuck = 0;
    this.from = 'start';
    const limit2 = (distance + TOLERANCE) ** 2;
    const ends = Math.max(
      a.vertices.squaredDistance(0, b.vertices, 0),
      a.vertices.squaredDistance(a.edges, b.vertices, b.edges),
    );
    if (ends > limit2) {
      this.#blocked = undefined;
      return false;
    }
    const free = this.#intervalFor(distance);
    return this.#hops(limit2, free) || this.#sweeps(free);
  }

  /**
   * About the least distance, between one that got stuck and one that doesn't, that leads past the place where it did: a
   * guess for the whole, as it looks only around there.
   */
  passes(low: number, high: number, tolerance: number): number {
    if (this.#blocked === undefined) return high;
    const cells = this.#thorough * Math.max(LEAST_PASSED, PASSED * (this.#a.edges + this.#b.edges));
    const { sweep, ways } = this.#blocked;
    for (const way of ways) {
      const leads = (distance: number) => sweep.leads(way, this.#intervalFor(distance), cells);
      const within = leads(high - tolerance);
      if (within === false) continue;
      // a farther look that takes too long tells nothing
      if (within === undefined && way !== ways[0]) break;
      let [fails, guess] = [low, high];
      while (guess - fails > tolerance) {
        const middle = (fails + guess) / 2;
        if (!(middle > fails && middle < guess)) break;
        if (leads(middle) === false) fails = middle;
        else guess = middle;
      }
      if (guess - low > tolerance) return guess;
      break;
    }
    this.#thorough *= MORE;
    return high;
  }

  #intervalFor(distance: number): FreeInterval {
    return new FreeInterval(distance + TOLERANCE, Math.max(this.#a.longest, this.#b.longest));
  }

  /**
   * Whether one path crosses: hops to the nearest next pair of vertices, and sweeps past the places where none is within the
   * limit. Proves that there is a path, never that there is none.
   */
  #hops(limit2: number, free: FreeInterval): boolean {
    const [a, b] = [this.#a.vertices, this.#b.vertices];
    // the vertex of b with each vertex of a on the path, -1 where it was swept past
    const path = new Int32Array(a.count).fill(-1);
    let [i, j] = [0, 0];
    let left = DEAD_ENDS + a.count / DEAD_END_EVERY;
    path[0] = 0;
    while (i < a.count - 1 || j < b.count - 1) {
      const [moreA, moreB] = [i < a.count - 1, j < b.count - 1];
      const both = moreA && moreB ? a.squaredDistance(i + 1, b, j + 1) : Infinity;
      const first = moreA ? a.squaredDistance(i + 1, b, j) : Infinity;
      const second = moreB ? a.squaredDistance(i, b, j + 1) : Infinity;
      const least = Math.min(both, first, second);
      if (least <= limit2) {
        if (least === both || least === first) i++;
        if (least === both || least !== first) j++;
      } else {
        if (left-- < 0 || !BACK.some((back) => this.#sweepsPast(i, path, back, free))) return false;
        i = this.#front.vertex;
        j = this.#front.firstVertex();
      }
      if (path[i] < 0) path[i] = j;
    }
    return true;
  }

  /** Whether a sweep from so many vertices back on a path leads past vertex `i` of `a`, to some pair of vertices. */
  #sweepsPast(i: number, path: Int32Array, back: number, free: FreeInterval): boolean {
    const front = this.#front;
    let from = Math.max(0, i - back);
    while (path[from] < 0) from--;
    front.startAt(from, path[from]);
    while (front.vertex <= i || front.firstVertex() < 0) {
      if (front.vertex === this.#a.edges || !front.advance(free)) return false;
    }
    return true;
  }

  /** Whether any path crosses: by the whole of the reachable space, if need be. */
  #sweeps(free: FreeInterval): boolean {
    const edges = this.#a.edges;
    const vertices = edges + this.#b.edges;
    const forth = this.#forth;
    const begun = forth.work;
    forth.begin(free);
    while (forth.vertex < edges && forth.work - begun < SWEPT * vertices) {
      if (!forth.advance(free)) return this.#isStuck(forth, forth.vertex - 1);
    }
    if (forth.vertex === edges) return forth.atEnd || this.#isStuck(forth, edges);
    this.#back ??= new NotedSweep(reversed(this.#a), reversed(this.#b));
    const back = this.#back;
    const [ahead, done] = [forth.work - back.work, begun + back.work];
    back.begin(free);
    for (let share = 1; forth.vertex + back.vertex < edges; share *= MORE) {
      if (pathCrosses(this.#a, this.#b, free, TRIED * share * vertices)) return true;
      while (forth.vertex + back.vertex < edges && forth.work + back.work - done < SWEPT * MORE * share * vertices) {
        const next = forth.work - back.work <= ahead ? forth : back;
        if (!next.advance(free)) return this.#isStuck(next, next.vertex - 1);
      }
    }
    const facing = (column: Column) => turned(column, edges, this.#b.edges);
    if (shareAPlace(forth.runs, facing({ vertex: 0, runs: back.runs }).runs, this.#b.edges)) return true;
    const ends = back.starts.map(facing);
    const ways = forth.starts.map((from, k): Way => {
      const { vertex, runs } = ends[Math.min(k, ends.length - 1)];
      return { from, to: vertex, runs };
    });
    return this.#isStuck(forth, forth.vertex, ways);
  }

  #isStuck(sweep: NotedSweep, vertex: number, ways?: readonly Way[]): false {
    const to = Math.min(this.#a.edges, vertex + ON);
    this.#blocked = { sweep, ways: ways ?? sweep.starts.map((from) => ({ from, to })) };
    this.stuck = vertex;
    this.from = sweep === this.#forth ? 'start' : 'end';
    return false;
  }
}

function reversed({ vertices, longest }: Curve): Curve {
  return new Curve(vertices.reversed(), longest);
}

/** A column of the reversed curves as one of the curves themselves. */
function turned({ vertex, runs }: Column, edgesA: number, edgesB: number): Column {
  return { vertex: edgesA - vertex, runs: runs.map((at) => edgesB - at).reverse() };
}
