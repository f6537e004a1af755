import { EdgeFeet, unwrapLongitude } from '../geodesy';
import { PriorityQueue } from './PriorityQueue';
import { BOX, SearchDisc } from './SearchDisc';
import { SegmentBoxes } from './SegmentBoxes';
import { Surroundings } from './Surroundings';

/** Places nearer to each other than this, in metres, count as equally near: rounding alone decides below it. */
const TIE = 1e-6;

/** Less than this, in degrees, is rounding: a ten-millionth of a metre. */
const SAME = 1e-12;

/**
 * Degrees up to which the segment last found is a good one to begin with: some 50 m, less at high latitudes. Further off, what
 * was gathered about it can't be held to.
 */
const NEARBY = 5e-4;

/**
 * An R-tree over the segments of a line given as columns, with the true distance to the segment at its leaves.
 *
 * Answers are left in the fields, so that a hot loop allocates nothing. Segment `i` runs from vertex `i` to `i + 1`.
 *
 * @remarks A search begins with the leaf of the last answer, or with the one found by going down to the nearest child; what
 * may be nearer than the best of that leaf is then found best first.
 */
export class SegmentTree {
  /** Number of segments. */
  readonly size: number;
  /** The segment last found; -1 when none was. */
  segment = -1;
  /** Metres to it. */
  distance = Number.NaN;
  /** Where on it the foot lies, 0 at its start, 1 at its end. */
  fraction = Number.NaN;
  /** As `distance`, signed: right of travel positive, left negative. */
  crossTrack = Number.NaN;

  readonly #lon: Float64Array;
  readonly #lat: ArrayLike<number>;
  readonly #feet: EdgeFeet;
  readonly #tree: SegmentBoxes;
  readonly #around: Surroundings;
  readonly #queue = new PriorityQueue();
  readonly #disc = new SearchDisc();
  // the position asked for, degrees
  #x = 0;
  #y = 0;
  // metres: the nearest so far, and the limit that the search began with
  #best = 0;
  #most = 0;
  // segments as near as the nearest so far; arrays that only grow, their length held apart
  #ties = 0;
  // the way down to a leaf: entries, and degrees to the nearest child beside the one taken; its length held apart
  readonly #path: number[] = [];
  readonly #spare: number[] = [];
  #depth = 0;
  readonly #tied: number[] = [];
  readonly #tiedDistance: number[] = [];

  constructor(lon: ArrayLike<number>, lat: ArrayLike<number>) {
    this.size = Math.max(lon.length - 1, 0);
    this.#lat = lat;
    this.#lon = unwrapped(lon);
    this.#feet = new EdgeFeet(this.#lon, lat);
    this.#tree = new SegmentBoxes(this.#lon, lat);
    this.#around = new Surroundings(this.#tree);
  }

  /**
   * Finds the segment nearest to a position, the first along the line where several are equally near; returns its index,
   * or -1 when none lies within `maxDistance` metres. A vertex belongs to the segment it starts.
   *
   * @param from - First segment searched.
   * @param to - Segment before which the search ends.
   */
  nearest(lon: number, lat: number, maxDistance = Infinity, from = 0, to = this.size): number {
    const begin = this.segment;
    this.segment = -1;
    this.distance = this.fraction = this.crossTrack = Number.NaN;
    if (!(from < to)) return -1;
    this.moveTo(lon, lat);
    const { boxes } = this.#tree;
    const disc = this.#disc;
    const queue = this.#queue;
    queue.size = 0;
    disc.narrow(maxDistance + TIE);
    this.#best = this.#most = maxDistance;
    this.#ties = 0;
    if (begin >= from && begin < to && this.#nearby(begin)) {
      this.#try(begin);
      const leaf = this.#tree.leafOf(begin);
      this.#scan(leaf, from, to, begin);
      const around = this.#around;
      if (around.hold(lon, lat, this.#best + TIE)) {
        for (let i = 0; i < around.count; i++) {
          const c = around.leaves[i];
          if (c !== leaf && disc.reachesBox(boxes, BOX * c)) this.#scan(c, from, to);
        }
      } else {
        queue.push(0, 0);
        this.#search(from, to, leaf);
      }
    } else {
      const leaf = this.#down(from, to);
      if (leaf >= 0) this.#scan(leaf, from, to);
      // what was passed by on the way down, where it may be as near
      for (let d = this.#depth - 1; d >= 0; d--) {
        if (!(this.#spare[d] > disc.reach)) this.#open(this.#path[d], from, to, this.#path[d + 1]);
      }
      this.#search(from, to, leaf);
    }
    let found = -1;
    for (let i = 0; i < this.#ties; i++) {
      if (this.#tiedDistance[i] <= this.#best + TIE && (found < 0 || this.#tied[i] < found)) found = this.#tied[i];
    }
    if (found < 0) return -1;
    if (found !== this.segment) this.measure(found);
    return this.#settle(to);
  }

  /** The segments within `radius` metres of a position, ascending. */
  within(x: number, y: number, radius: number): number[] {
    const found: number[] = [];
    if (this.size === 0) return found;
    this.moveTo(x, y);
    const { boxes, bulge, child, childEnd, first, last } = this.#tree;
    const disc = this.#disc;
    const lon = this.#lon;
    const lat = this.#lat;
    disc.narrow(radius + TIE);
    const open = [0];
    for (let entry = open.pop(); entry !== undefined; entry = open.pop()) {
      for (let segment = first[entry]; child[entry] < 0 && segment <= last[entry]; segment++) {
        const next = segment + 1;
        if (!disc.reachesEdge(lon[segment], lat[segment], lon[next], lat[next], bulge[entry])) continue;
        if (this.#feet.measure(segment) <= radius) found.push(segment);
      }
      for (let c = child[entry]; c < childEnd[entry]; c++) if (disc.reachesBox(boxes, BOX * c)) open.push(c);
    }
    return found.sort((a, b) => a - b);
  }

  /** Takes a position, degrees, for `measure` and `settle`. */
  moveTo(lon: number, lat: number): void {
    this.#x = lon;
    this.#y = lat;
    this.#feet.moveTo(lon, lat);
    this.#disc.moveTo(lon, lat, this.#feet.cosLat);
  }

  /** Drops the position onto one given segment; leaves the answer in the fields and returns the distance in metres. */
  measure(segment: number): number {
    const feet = this.#feet;
    this.distance = feet.measure(segment);
    this.segment = segment;
    this.fraction = feet.fraction;
    this.crossTrack = feet.crossTrack;
    return this.distance;
  }

  /**
   * Drops the position onto one given segment, or onto the one that starts where it ends when the foot is its end;
   * decides the side at a vertex. Leaves the answer in the fields and returns the segment.
   */
  settle(segment: number, to = this.size): number {
    this.measure(segment);
    return this.#settle(to);
  }

  #settle(to: number): number {
    let at = this.segment;
    while (at + 1 < to && (this.#atEnd(at, 1 - this.fraction) || this.#empty(at))) this.measure(++at);
    if (this.#atEnd(at, this.fraction)) this.fraction = 0;
    else if (this.#atEnd(at, 1 - this.fraction)) this.fraction = 1;
    if (this.fraction === 0) this.#chooseSide();
    return at;
  }

  /** Whether a share of a segment is too little to tell a foot from its end. */
  #atEnd(segment: number, share: number): boolean {
    const dLon = Math.abs(this.#lon[segment + 1] - this.#lon[segment]);
    const dLat = Math.abs(this.#lat[segment + 1] - this.#lat[segment]);
    return share * (dLon + dLat) <= SAME;
  }

  /** Beyond a vertex a position is on the outside of the turn, whatever each edge alone would say. */
  #chooseSide(): void {
    const { segment, distance, crossTrack } = this;
    let before = segment - 1;
    while (before >= 0 && this.#empty(before)) before--;
    if (before < 0) return;
    const feet = this.#feet;
    feet.measure(before);
    if (feet.crossTrack < 0 === crossTrack < 0) return;
    feet.moveTo(this.#lon[segment + 1], this.#lat[segment + 1]);
    feet.measure(before);
    // where the line turns straight back there is no outside
    if (feet.distance > TIE) this.crossTrack = feet.crossTrack > 0 ? -distance : distance;
    feet.moveTo(this.#x, this.#y);
  }

  #empty(segment: number): boolean {
    return this.#lon[segment] === this.#lon[segment + 1] && this.#lat[segment] === this.#lat[segment + 1];
  }

  /** Tries, best first, what waits that may be as near as the nearest so far, but for a leaf that has been scanned. */
  #search(from: number, to: number, scanned: number): void {
    const { child } = this.#tree;
    const disc = this.#disc;
    const queue = this.#queue;
    while (queue.size > 0 && queue.least <= disc.limit) {
      const entry = queue.pop();
      if (child[entry] < 0) this.#scan(entry, from, to);
      else this.#open(entry, from, to, scanned);
    }
  }

  /** Lets the children of an entry wait that may be as near as the nearest so far, but for one. */
  #open(entry: number, from: number, to: number, but: number): void {
    const { boxes, child, childEnd, first, last } = this.#tree;
    const disc = this.#disc;
    const end = childEnd[entry];
    for (let c = child[entry]; c < end; c++) {
      if (!disc.reachesBox(boxes, BOX * c) || c === but) continue;
      if (last[c] < from || first[c] >= to) continue;
      const key = disc.keyOf(boxes, BOX * c);
      if (key <= disc.limit) this.#queue.push(key, c);
    }
  }

  /** Whether a segment is a good one to begin with. */
  #nearby(segment: number): boolean {
    return Math.abs(this.#y - this.#lat[segment]) + Math.abs(this.#x - this.#lon[segment]) <= NEARBY;
  }

  /**
   * A leaf to begin with, reached by going down to the nearest child, as on a map: any leaf would do. -1 where no segment between
   * `from` and `to` lies below. The way down is kept, and how far the next child was at each step of it.
   */
  #down(from: number, to: number): number {
    const { boxes, child, childEnd, first, last } = this.#tree;
    const disc = this.#disc;
    const isAll = from <= 0 && to >= this.size;
    let entry = 0;
    let depth = 0;
    while (entry >= 0 && child[entry] >= 0) {
      const end = childEnd[entry];
      let next = -1;
      let least = Infinity;
      let spare = Infinity;
      for (let c = child[entry]; c < end; c++) {
        const away = disc.awayFrom(boxes, BOX * c);
        if (!(away < spare) || (!isAll && (last[c] < from || first[c] >= to))) continue;
        if (away < least) {
          spare = least;
          least = away;
          next = c;
        } else spare = away;
      }
      this.#path[depth] = entry;
      this.#spare[depth++] = spare;
      entry = next;
    }
    this.#path[depth] = entry;
    this.#depth = depth;
    return entry;
  }

  /** Tries the segments of a leaf that may be as near as the nearest so far, but for one that has been tried. */
  #scan(leaf: number, from: number, to: number, tried = -1): void {
    const { first, last } = this.#tree;
    const bulge = this.#tree.bulge[leaf];
    const disc = this.#disc;
    const lon = this.#lon;
    const lat = this.#lat;
    const end = Math.min(last[leaf] + 1, to);
    let segment = Math.max(first[leaf], from);
    let x = lon[segment];
    let y = lat[segment];
    for (; segment < end; segment++) {
      const nextX = lon[segment + 1];
      const nextY = lat[segment + 1];
      if (segment !== tried && disc.reachesEdge(x, y, nextX, nextY, bulge)) this.#try(segment);
      x = nextX;
      y = nextY;
    }
  }

  #try(segment: number): void {
    const distance = this.#feet.measure(segment);
    if (!(distance <= this.#best + TIE && distance <= this.#most)) return;
    if (distance < this.#best) {
      if (distance < this.#best - TIE) this.#ties = 0;
      this.#best = distance;
      this.#disc.narrow(distance + TIE);
      this.segment = segment;
      this.distance = distance;
      this.fraction = this.#feet.fraction;
      this.crossTrack = this.#feet.crossTrack;
    }
    this.#tied[this.#ties] = segment;
    this.#tiedDistance[this.#ties++] = distance;
  }
}

/** Longitudes without a jump; a column that has none is kept as it is. */
function unwrapped(lon: ArrayLike<number>): Float64Array {
  if (lon instanceof Float64Array) {
    let i = 1;
    while (i < lon.length && Math.abs(lon[i] - lon[i - 1]) < 180) i++;
    if (i >= lon.length) return lon;
  }
  const column = Float64Array.from(lon);
  for (let i = 1; i < column.length; i++) column[i] = unwrapLongitude(column[i], column[i - 1]);
  return column;
}
