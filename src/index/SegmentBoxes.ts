import { RADIAN } from '../geodesy';
import { latitudeReach } from './latitudeReach';
import { BOX } from './SearchDisc';
import { selectByKey } from './selectByKey';

/** Consecutive segments share one box: neighbours lie together anyway, and the tree is an eighth of the size. */
const GROUP = 8;

/** Children of an entry at the most. */
const CHILDREN = 16;

/** Least and greatest longitude, least and greatest latitude. */
const SIDES = 4;

/**
 * The boxes of an R-tree over the segments of a line, built by bulk load in flat columns.
 *
 * Entry 0 is the root. The children of an entry lie side by side; a leaf holds a few consecutive segments. The boxes
 * hold longitude and latitude, the poleward bulge of each geodesic included.
 *
 * @see Lee & Lee, OMT: overlap minimizing top-down bulk loading algorithm for R-tree, CAiSE short papers (2003)
 */
export class SegmentBoxes {
  /** {@link BOX} numbers for each entry. */
  readonly boxes: Float64Array;
  /** Degrees that the edges of a leaf reach at most beyond the latitudes of their vertices. */
  readonly bulge: Float64Array;
  /** First and last segment of an entry. */
  readonly first: Int32Array;
  readonly last: Int32Array;
  /** First child of an entry, -1 for a leaf, and the entry after the last. */
  readonly child: Int32Array;
  readonly childEnd: Int32Array;
  readonly #leaves: Int32Array;

  /** @param lon - Unwrapped. */
  constructor(lon: Float64Array, lat: ArrayLike<number>) {
    const size = lon.length - 1;
    const groups = Math.ceil(size / GROUP);
    const sides = new Float64Array(SIDES * groups);
    const bulges = new Float64Array(groups);
    for (let group = 0; group < groups; group++) {
      bulges[group] = enclose(lon, lat, group * GROUP, Math.min((group + 1) * GROUP, size), sides, SIDES * group);
    }
    const { order, from, child, childEnd } = packed(sides, groups);
    const n = from.length;
    this.boxes = new Float64Array(BOX * n);
    this.bulge = new Float64Array(n);
    this.first = new Int32Array(n).fill(size);
    this.last = new Int32Array(n).fill(-1);
    this.child = new Int32Array(child);
    this.childEnd = new Int32Array(childEnd);
    this.#leaves = new Int32Array(groups);
    const all = new Float64Array(SIDES * n);
    for (let k = n - 1; k >= 0; k--) {
      const at = SIDES * k;
      if (child[k] < 0) {
        const group = order[from[k]];
        for (let side = 0; side < SIDES; side++) all[at + side] = sides[SIDES * group + side];
        this.bulge[k] = bulges[group];
        this.first[k] = group * GROUP;
        this.last[k] = Math.min((group + 1) * GROUP, size) - 1;
        this.#leaves[group] = k;
      } else {
        let [west, east, south, north] = [Infinity, -Infinity, Infinity, -Infinity];
        for (let c = child[k]; c < childEnd[k]; c++) {
          west = Math.min(west, all[SIDES * c]);
          east = Math.max(east, all[SIDES * c + 1]);
          south = Math.min(south, all[SIDES * c + 2]);
          north = Math.max(north, all[SIDES * c + 3]);
          this.first[k] = Math.min(this.first[k], this.first[c]);
          this.last[k] = Math.max(this.last[k], this.last[c]);
        }
        all[at] = west;
        all[at + 1] = east;
        all[at + 2] = south;
        all[at + 3] = north;
      }
      const [west, east, south, north] = [all[at], all[at + 1], all[at + 2], all[at + 3]];
      const box = BOX * k;
      this.boxes[box] = (west + east) / 2;
      this.boxes[box + 1] = (east - west) / 2;
      this.boxes[box + 2] = (south + north) / 2;
      this.boxes[box + 3] = (north - south) / 2;
      this.boxes[box + 4] = Math.max(Math.cos(Math.max(Math.abs(south), Math.abs(north)) * RADIAN), 0);
    }
  }

  /** The leaf that holds a segment. */
  leafOf(segment: number): number {
    return this.#leaves[Math.floor(segment / GROUP)];
  }
}

/** Puts the sides of the box about some segments into `sides`; returns how far these reach beyond their vertices' latitudes. */
function enclose(
  lon: ArrayLike<number>,
  lat: ArrayLike<number>,
  from: number,
  to: number,
  sides: Float64Array,
  at: number,
): number {
  let west = lon[from];
  let east = west;
  let south = lat[from];
  let north = south;
  let bulge = 0;
  for (let i = from; i < to; i++) {
    const reach = latitudeReach(lon[i], lat[i], lon[i + 1], lat[i + 1]);
    const x = lon[i + 1];
    const y = lat[i + 1];
    if (x < west) west = x;
    if (x > east) east = x;
    if (y < south) south = y;
    if (y > north) north = y;
    if (reach > north) north = reach;
    if (reach < south) south = reach;
    bulge = Math.max(bulge, reach - Math.max(lat[i], y), Math.min(lat[i], y) - reach);
  }
  sides[at] = west;
  sides[at + 1] = east;
  sides[at + 2] = south;
  sides[at + 3] = north;
  return bulge;
}

/** A tree over groups: for every entry where its groups begin in `order`, and its children as in {@link SegmentBoxes}. */
interface Packed {
  readonly order: Int32Array;
  readonly from: readonly number[];
  readonly child: readonly number[];
  readonly childEnd: readonly number[];
}

/** Packs groups from the top: each entry is cut into columns of longitude, these by latitude, as evenly as can be. */
function packed(sides: Float64Array, groups: number): Packed {
  const order = new Int32Array(groups);
  const west = new Float64Array(groups);
  const south = new Float64Array(groups);
  for (let group = 0; group < groups; group++) {
    order[group] = group;
    west[group] = sides[SIDES * group];
    south[group] = sides[SIDES * group + 2];
  }
  const from = [0];
  const to = [groups];
  const height = [Math.max(Math.ceil(Math.log(groups) / Math.log(CHILDREN) - 1e-9), 1)];
  const child: number[] = [];
  const childEnd: number[] = [];
  const open = (begin: number, end: number, above: number) => {
    from.push(begin);
    to.push(end);
    height.push(above);
  };
  for (let k = 0; k < from.length; k++) {
    if (height[k] === 0) {
      child.push(-1);
      childEnd.push(-1);
      continue;
    }
    child.push(from.length);
    const [begin, end, below] = [from[k], to[k], height[k] - 1];
    const count = end - begin;
    if (count <= CHILDREN) for (let at = begin; at < end; at++) open(at, at + 1, 0);
    else {
      const most = Math.ceil(count / CHILDREN ** below);
      const row = Math.ceil(count / most);
      const column = row * Math.ceil(Math.sqrt(most));
      part(order, west, begin, end, column);
      for (let x = begin; x < end; x += column) {
        const columnEnd = Math.min(x + column, end);
        part(order, south, x, columnEnd, row);
        for (let y = x; y < columnEnd; y += row) open(y, Math.min(y + row, columnEnd), below);
      }
    }
    childEnd.push(from.length);
  }
  return { order, from, child, childEnd };
}

/** Orders groups by a key as far as it takes for every `size` of them to be no more than the next. */
function part(order: Int32Array, keys: Float64Array, begin: number, end: number, size: number): void {
  if (end - begin <= size) return;
  const middle = begin + Math.ceil((end - begin) / size / 2) * size;
  selectByKey(order, keys, begin, end - 1, middle);
  part(order, keys, begin, middle, size);
  part(order, keys, middle, end, size);
}
