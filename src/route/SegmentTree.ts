import RBush, { type BBox } from 'rbush';
import { EdgeFeet } from '../geodesy/EdgeFeet';
import { unwrapLongitude } from '../internal/longitude';
import { latitudeReach } from './latitudeReach';

const HALF_RADIAN = Math.PI / 360;

/** Numbers a box: middle and half width in longitude, southern and northern latitude, least cosine of latitude. */
const BOX = 5;

/** Consecutive segments share one box: neighbours lie together anyway, and the tree is an eighth of the size. */
const GROUP = 8;

/**
 * A sphere of this radius, carrying the same longitudes and latitudes, has nowhere a longer metric than WGS 84: the
 * ellipsoid's smallest radius of curvature a(1 − e²), a millionth taken off for rounding. Distances on it bound the
 * true ones from below by at most 1 %.
 */
const SMALLEST_RADIUS = 6335439.327 * (1 - 1e-6);

/** Places nearer to each other than this, in metres, count as equally near: rounding alone decides below it. */
const TIE = 1e-6;

interface Group extends BBox {
  readonly group: number;
}

interface TreeNode extends BBox {
  readonly children: readonly (TreeNode | Group)[];
}

/**
 * An R-tree over the segments of a line given as columns, with the true distance to the segment at its leaves.
 *
 * Answers are left in the fields, so that a hot loop allocates nothing. Segment `i` runs from vertex `i` to `i + 1`.
 *
 * @remarks The boxes hold longitude and latitude, the poleward bulge of each geodesic included; the distance to a box is
 * bounded on an inscribed sphere, so that ±180° and the poles need no special case.
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
  // one entry a box, children of a node side by side: BOX numbers each, half angles in radians
  readonly #boxes: Float64Array;
  readonly #first: Int32Array;
  readonly #last: Int32Array;
  /** First child of an entry; leaves hold -1. */
  readonly #child: Int32Array;
  readonly #childEnd: Int32Array;
  // the queue of boxes still to open, nearest first
  #keys = new Float64Array(64);
  #entries = new Int32Array(64);
  #queued = 0;
  // the position asked for, degrees
  #x = 0;
  #y = 0;
  // segments as near as the nearest so far; arrays that only grow, their length held apart
  readonly #tied: number[] = [];
  readonly #tiedDistance: number[] = [];

  constructor(lon: ArrayLike<number>, lat: ArrayLike<number>) {
    const size = Math.max(lon.length - 1, 0);
    this.size = size;
    this.#lat = lat;
    this.#lon = new Float64Array(lon.length);
    for (let i = 0; i < lon.length; i++) this.#lon[i] = i === 0 ? lon[0] : unwrapLongitude(lon[i], this.#lon[i - 1]);
    this.#feet = new EdgeFeet(this.#lon, lat);
    const groups: Group[] = [];
    for (let from = 0; from < size; from += GROUP) groups.push(this.#boxOf(from, Math.min(from + GROUP, size)));
    const root = new RBush<Group>(16).load(groups).toJSON() as TreeNode;
    const queue: (TreeNode | Group)[] = [root];
    for (let k = 0; k < queue.length; k++) {
      const node = queue[k];
      if ('children' in node) queue.push(...node.children);
    }
    const n = queue.length;
    const boxes = new Float64Array(BOX * n);
    this.#boxes = boxes;
    this.#first = new Int32Array(n);
    this.#last = new Int32Array(n);
    this.#child = new Int32Array(n).fill(-1);
    this.#childEnd = new Int32Array(n).fill(-1);
    let next = 1;
    for (let k = 0; k < n; k++) {
      const node = queue[k];
      const box = BOX * k;
      boxes[box] = ((node.minX + node.maxX) / 2) * HALF_RADIAN;
      boxes[box + 1] = ((node.maxX - node.minX) / 2) * HALF_RADIAN;
      boxes[box + 2] = node.minY * HALF_RADIAN;
      boxes[box + 3] = node.maxY * HALF_RADIAN;
      boxes[box + 4] = Math.max(Math.min(Math.cos(2 * boxes[box + 2]), Math.cos(2 * boxes[box + 3])), 0);
      if ('children' in node) {
        this.#child[k] = next;
        this.#childEnd[k] = next += node.children.length;
      } else {
        this.#first[k] = node.group;
        this.#last[k] = Math.min(node.group + GROUP, size) - 1;
      }
    }
    for (let k = n - 1; k >= 0; k--) {
      if (this.#child[k] < 0) continue;
      this.#first[k] = size;
      for (let c = this.#child[k]; c < this.#childEnd[k]; c++) {
        this.#first[k] = Math.min(this.#first[k], this.#first[c]);
        this.#last[k] = Math.max(this.#last[k], this.#last[c]);
      }
    }
  }

  /**
   * Finds the segment nearest to a position, the first along the line where several are equally near; returns its index,
   * or -1 when none lies within `maxDistance` metres. A vertex belongs to the segment it starts.
   *
   * @param from - First segment searched.
   * @param to - Segment before which the search ends.
   */
  nearest(lon: number, lat: number, maxDistance = Infinity, from = 0, to = this.size): number {
    this.segment = -1;
    this.distance = this.fraction = this.crossTrack = Number.NaN;
    const feet = this.#feet;
    const first = this.#first;
    const last = this.#last;
    const boxes = this.#boxes;
    const children = this.#child;
    const childEnds = this.#childEnd;
    const tied = this.#tied;
    const tiedDistance = this.#tiedDistance;
    let ties = 0;
    if (this.size === 0) return -1;
    this.moveTo(lon, lat);
    const x = lon * HALF_RADIAN;
    const y = lat * HALF_RADIAN;
    const cosine = Math.max(Math.cos(2 * y), 0);
    let best = maxDistance;
    let limit = reach(best);
    this.#queued = 0;
    this.#push(0, 0);
    while (this.#queued > 0) {
      if (this.#keys[0] > limit) break;
      const entry = this.#pop();
      const child = children[entry];
      if (child < 0) {
        const end = Math.min(last[entry] + 1, to);
        for (let segment = Math.max(first[entry], from); segment < end; segment++) {
          const distance = feet.measure(segment);
          if (distance > best + TIE || distance > maxDistance) continue;
          if (distance < best) {
            if (distance < best - TIE) ties = 0;
            best = distance;
            limit = reach(best);
          }
          tied[ties] = segment;
          tiedDistance[ties++] = distance;
        }
        continue;
      }
      const childEnd = childEnds[entry];
      for (let c = child; c < childEnd; c++) {
        if (last[c] < from || first[c] >= to) continue;
        const key = bound(boxes, BOX * c, x, y, cosine);
        if (key <= limit) this.#push(key, c);
      }
    }
    let found = -1;
    for (let i = 0; i < ties; i++) {
      if (tiedDistance[i] <= best + TIE && (found < 0 || tied[i] < found)) found = tied[i];
    }
    return found < 0 ? -1 : this.settle(found, to);
  }

  /** The segments within `radius` metres of a position, ascending. */
  within(lon: number, lat: number, radius: number): number[] {
    const found: number[] = [];
    if (this.size === 0) return found;
    const feet = this.#feet;
    const boxes = this.#boxes;
    this.moveTo(lon, lat);
    const x = lon * HALF_RADIAN;
    const y = lat * HALF_RADIAN;
    const cosine = Math.max(Math.cos(2 * y), 0);
    const limit = reach(radius);
    const open = [0];
    for (let entry = open.pop(); entry !== undefined; entry = open.pop()) {
      const child = this.#child[entry];
      if (child < 0) {
        for (let segment = this.#first[entry]; segment <= this.#last[entry]; segment++) {
          if (feet.measure(segment) <= radius) found.push(segment);
        }
        continue;
      }
      for (let c = child; c < this.#childEnd[entry]; c++) {
        if (bound(boxes, BOX * c, x, y, cosine) <= limit) open.push(c);
      }
    }
    return found.sort((a, b) => a - b);
  }

  /** Takes a position, degrees, for `measure` and `settle`. */
  moveTo(lon: number, lat: number): void {
    this.#x = lon;
    this.#y = lat;
    this.#feet.moveTo(lon, lat);
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
    let at = segment;
    this.measure(at);
    while (at + 1 < to && (this.fraction === 1 || this.#empty(at))) this.measure(++at);
    if (this.fraction === 0) this.#chooseSide();
    return at;
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

  #boxOf(from: number, to: number): Group {
    let minX = this.#lon[from];
    let maxX = minX;
    let minY = this.#lat[from];
    let maxY = minY;
    for (let i = from; i < to; i++) {
      const reachOfEdge = latitudeReach(this.#lon[i], this.#lat[i], this.#lon[i + 1], this.#lat[i + 1]);
      const lon = this.#lon[i + 1];
      const lat = this.#lat[i + 1];
      if (lon < minX) minX = lon;
      if (lon > maxX) maxX = lon;
      if (lat < minY) minY = lat;
      if (lat > maxY) maxY = lat;
      if (reachOfEdge > maxY) maxY = reachOfEdge;
      if (reachOfEdge < minY) minY = reachOfEdge;
    }
    return { minX, minY, maxX, maxY, group: from };
  }

  #push(key: number, entry: number): void {
    if (this.#queued === this.#keys.length) {
      const keys = new Float64Array(2 * this.#queued);
      keys.set(this.#keys);
      this.#keys = keys;
      const entries = new Int32Array(2 * this.#queued);
      entries.set(this.#entries);
      this.#entries = entries;
    }
    const keys = this.#keys;
    const entries = this.#entries;
    let at = this.#queued++;
    while (at > 0) {
      const parent = (at - 1) >> 1;
      if (keys[parent] <= key) break;
      keys[at] = keys[parent];
      entries[at] = entries[parent];
      at = parent;
    }
    keys[at] = key;
    entries[at] = entry;
  }

  #pop(): number {
    const keys = this.#keys;
    const entries = this.#entries;
    const top = entries[0];
    const size = --this.#queued;
    const key = keys[size];
    const entry = entries[size];
    let at = 0;
    for (;;) {
      let child = 2 * at + 1;
      if (child >= size) break;
      if (child + 1 < size && keys[child + 1] < keys[child]) child++;
      if (keys[child] >= key) break;
      keys[at] = keys[child];
      entries[at] = entries[child];
      at = child;
    }
    keys[at] = key;
    entries[at] = entry;
    return top;
  }
}

/** Squared sine of half the angle that a distance in metres spans on the smallest sphere; above 1 when it spans all. */
function reach(distance: number): number {
  const half = (distance + TIE) / (2 * SMALLEST_RADIUS);
  if (half >= Math.PI / 2) return 2;
  const sine = Math.sin(half);
  return sine * sine;
}

/** Squared sine of half the angle that a position, half angles in radians, is at least away from a box. */
function bound(boxes: Float64Array, box: number, x: number, y: number, cosine: number): number {
  let dx = Math.abs(x - boxes[box]);
  if (dx > Math.PI / 2) dx = Math.abs(dx - Math.PI * Math.round(dx / Math.PI));
  dx -= boxes[box + 1];
  const south = boxes[box + 2] - y;
  const north = y - boxes[box + 3];
  const dy = Math.max(south, north);
  // sin t ≥ t − t³/6
  const sy = dy > 0 ? dy - (dy * dy * dy) / 6 : 0;
  if (!(dx > 0)) return sy * sy;
  const sx = dx - (dx * dx * dx) / 6;
  return sy * sy + cosine * boxes[box + 4] * sx * sx;
}
