import { bisector, bisectRight } from 'd3-array';
import { quickInverse, RADIAN, turnBetween } from '../geodesy';
import type { Route } from '../model';
import type { Exclusion } from './Assessment';

/** A stretch of which less is left after what was taken out is not judged: what is left says nothing of it. */
const LEAST_SHARE = 0.2;
const LEAST_METRES = 20;

export const LEFT_RULE = `Of a stretch of which less than ${100 * LEAST_SHARE} % or ${LEAST_METRES} m, whichever is less, is left after exclusions, nothing is said.`;

/** A run of bins: from the first up to, not including, the last. */
export interface BinRange {
  readonly first: number;
  readonly end: number;
}

/**
 * The route cut into bins of at most a metre, none of which straddles the end of a section, a mark or an exclusion.
 *
 * Each bin counts once, whatever was recorded there and for how long.
 */
export class RouteGrid {
  readonly route: Route;
  /** Metres along-track, one more than there are bins. */
  readonly edges: Float64Array;
  readonly middle: Float64Array;
  readonly width: Float64Array;
  /** Unit vector to the right of travel, east and north. */
  readonly rightEast: Float64Array;
  readonly rightNorth: Float64Array;
  /** Radians turned at each vertex of the route, left positive: what offset right of it adds to the length. */
  readonly turn: Float64Array;
  /** Half the corridor in metres; NaN where unstated. */
  readonly halfWidth: Float64Array;
  /** Stated lateral uncertainty of the reference; NaN where unstated. */
  readonly lateral95: Float64Array;
  /** Index of the innermost section that holds the bin, the shortest, -1 for none. */
  readonly section: Int32Array;
  /** 1 where every figure leaves the bin out. */
  readonly excluded: Uint8Array;
  /** The whole cut at every end of a section, in order: each section is one part or several. */
  readonly parts: readonly BinRange[];
  /** Whether a corridor is stated anywhere. */
  readonly anyCorridor: boolean;
  readonly #anyExcluded: boolean;
  /** The bin that holds each whole metre; one more at the end. */
  readonly #atMetre: Int32Array;
  readonly #made = new Map<unknown, unknown>();

  constructor(route: Route, exclude: readonly Exclusion[]) {
    this.route = route;
    this.edges = cut(route, exclude);
    const count = this.edges.length - 1;
    this.#atMetre = binsByMetre(this.edges);
    const column = () => new Float64Array(count);
    this.middle = column();
    this.width = column();
    this.rightEast = column();
    this.rightNorth = column();
    this.halfWidth = column().fill(Number.NaN);
    this.lateral95 = column();
    this.section = new Int32Array(count).fill(-1);
    this.excluded = new Uint8Array(count);
    this.anyCorridor = route.sections.some(({ halfWidth }) => halfWidth !== undefined);
    this.#anyExcluded = exclude.length > 0;

    const { lon, lat, alongTrack } = route;
    this.turn = new Float64Array(lon.length);
    // Two directions for each edge: on the ellipsoid they differ, and the difference is no turn of the route.
    const departing = new Float64Array(lon.length).fill(Number.NaN);
    let arriving = Number.NaN;
    for (let i = 0; i + 1 < lon.length; i++) {
      if (!(alongTrack[i + 1] > alongTrack[i])) continue;
      const { azi1, azi2 } = quickInverse(lon[i], lat[i], lon[i + 1], lat[i + 1]);
      departing[i] = azi1;
      if (!Number.isNaN(arriving)) this.turn[i] = -turnBetween(arriving, azi1) * RADIAN;
      arriving = azi2;
    }
    let vertex = 0;
    let pointed = -1;
    let rightEast = Number.NaN;
    let rightNorth = Number.NaN;
    for (let k = 0; k < count; k++) {
      const s = (this.middle[k] = (this.edges[k] + this.edges[k + 1]) / 2);
      this.width[k] = this.edges[k + 1] - this.edges[k];
      while (vertex + 2 < lon.length && alongTrack[vertex + 1] <= s) vertex++;
      if (vertex !== pointed) {
        pointed = vertex;
        rightEast = Math.cos(departing[vertex] * RADIAN);
        rightNorth = -Math.sin(departing[vertex] * RADIAN);
      }
      this.rightEast[k] = rightEast;
      this.rightNorth[k] = rightNorth;
      this.lateral95[k] = Math.max(route.lateral95[vertex], route.lateral95[vertex + 1]);
    }
    const widestFirst = [...route.sections.entries()].sort(([, a], [, b]) => b.to - b.from - (a.to - a.from));
    for (const [i, section] of widestFirst) {
      const { first, end } = this.range(section.from, section.to);
      this.section.fill(i, first, end);
      if (section.halfWidth !== undefined) this.halfWidth.fill(section.halfWidth, first, end);
    }
    for (const { from, to } of exclude) {
      const { first, end } = this.range(from, to);
      this.excluded.fill(1, first, end);
    }
    const cuts = new Set([0, count, ...route.sections.flatMap(({ from, to }) => [this.edgeAt(from), this.edgeAt(to)])]);
    const ends = [...cuts].sort((a, b) => a - b);
    this.parts = ends.slice(1).map((end, i) => ({ first: ends[i], end }));
  }

  get count(): number {
    return this.middle.length;
  }

  /** Degrees, longitude unwrapped, at the middle of a bin. */
  positionAt(bin: number): [lon: number, lat: number] {
    const { lon, lat, alongTrack } = this.route;
    const s = this.middle[bin];
    const vertex = Math.min(Math.max(0, bisectRight(alongTrack, s) - 1), lon.length - 2);
    const span = alongTrack[vertex + 1] - alongTrack[vertex];
    const fraction = span > 0 ? (s - alongTrack[vertex]) / span : 0;
    return [
      lon[vertex] + fraction * (lon[vertex + 1] - lon[vertex]),
      lat[vertex] + fraction * (lat[vertex + 1] - lat[vertex]),
    ];
  }

  /** What `make` makes of the grid and of nothing else, once. */
  once<T>(make: (grid: RouteGrid) => T): T {
    if (!this.#made.has(make)) this.#made.set(make, make(this));
    return this.#made.get(make) as T;
  }

  /** Bins between two places that are edges of the grid. */
  range(from: number, to: number): BinRange {
    return { first: this.edgeAt(from), end: this.edgeAt(to) };
  }

  /** Which of the parts make up a stretch between ends of sections. */
  partsWithin({ first, end }: BinRange): BinRange {
    const from = firstPart(this.parts, first);
    return { first: from, end: Math.max(from, endPart(this.parts, end)) };
  }

  /** Whether enough of a stretch is left to be judged after exclusions, see {@link LEFT_RULE}. */
  isLeft(from: number, to: number): boolean {
    let left = to - from;
    for (const [begin, end] of this.excludedStretches(from, to)) left -= end - begin;
    return left >= Math.min(LEAST_SHARE * (to - from), LEAST_METRES);
  }

  /** Whether a place is left out. */
  isExcluded(alongTrack: number): boolean {
    return this.#anyExcluded && this.excluded[this.binAt(alongTrack)] === 1;
  }

  /** What is left out of a stretch, in order, each metre once. */
  excludedStretches(from: number, to: number): [from: number, to: number][] {
    const found: [number, number][] = [];
    if (!this.#anyExcluded) return found;
    const first = this.binAt(from);
    const last = this.binAt(to);
    for (let k = first; k <= last; k++) {
      if (this.excluded[k] === 0) continue;
      const begin = Math.max(from, this.edges[k]);
      const end = Math.min(to, this.edges[k + 1]);
      const before = found[found.length - 1];
      if (before && before[1] === begin) before[1] = end;
      else if (end > begin) found.push([begin, end]);
    }
    return found;
  }

  /** The bin that holds a place; the last one for the end. */
  binAt(alongTrack: number): number {
    const edges = this.edges;
    const metres = this.#atMetre;
    const metre = alongTrack > 0 ? Math.min(Math.floor(alongTrack), metres.length - 2) : 0;
    let low = metres[metre];
    let high = metres[metre + 1] + 1;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (edges[middle] <= alongTrack) low = middle;
      else high = middle;
    }
    return low;
  }

  private edgeAt(alongTrack: number): number {
    const bin = this.binAt(alongTrack);
    return alongTrack - this.edges[bin] <= this.edges[bin + 1] - alongTrack ? bin : bin + 1;
  }
}

const firstPart = bisector(({ first }: BinRange) => first).left;
const endPart = bisector(({ end }: BinRange) => end).right;

function binsByMetre(edges: Float64Array): Int32Array {
  const last = edges.length - 2;
  const bins = new Int32Array(Math.max(0, Math.floor(edges[last + 1])) + 2);
  let bin = 0;
  for (let metre = 0; metre < bins.length; metre++) {
    while (bin < last && edges[bin + 1] <= metre) bin++;
    bins[metre] = bin;
  }
  return bins;
}

/** A grid that nothing is left out of. */
export function wholeGrid(route: Route): RouteGrid {
  return new RouteGrid(route, []);
}

/** Closer than this, two ends are one: a bin of a micrometre would weigh nothing and cost a division by it. */
const SLIVER = 1e-6;

function cut(route: Route, exclude: readonly Exclusion[]): Float64Array {
  const ends = [
    0,
    route.length,
    ...route.sections.flatMap(({ from, to }) => [from, to]),
    ...route.marks.map(({ alongTrack }) => alongTrack),
    ...exclude.flatMap(({ from, to }) => [from, to]),
  ]
    .filter((end) => end >= 0 && end <= route.length)
    .sort((a, b) => a - b);
  const edges = [0];
  for (const end of ends) {
    const begin = edges[edges.length - 1];
    if (end - begin < SLIVER) continue;
    const pieces = Math.ceil(end - begin - SLIVER);
    for (let i = 1; i <= pieces; i++) edges.push(i === pieces ? end : begin + ((end - begin) * i) / pieces);
  }
  return new Float64Array(edges);
}
