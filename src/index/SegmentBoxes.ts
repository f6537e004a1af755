import RBush, { type BBox } from 'rbush';
import { RADIAN } from '../geodesy';
import { latitudeReach } from './latitudeReach';
import { BOX } from './SearchDisc';

/** Consecutive segments share one box: neighbours lie together anyway, and the tree is an eighth of the size. */
const GROUP = 8;

interface Group extends BBox {
  readonly group: number;
  readonly bulge: number;
}

interface TreeNode extends BBox {
  readonly children: readonly (TreeNode | Group)[];
}

/**
 * The boxes of an R-tree over the segments of a line, built by bulk load and laid out in flat columns.
 *
 * Entry 0 is the root. The children of an entry lie side by side; a leaf holds a few consecutive segments. The boxes
 * hold longitude and latitude, the poleward bulge of each geodesic included.
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
    const groups: Group[] = [];
    for (let from = 0; from < size; from += GROUP) groups.push(boxOf(lon, lat, from, Math.min(from + GROUP, size)));
    const entries: (TreeNode | Group)[] = [new RBush<Group>(16).load(groups).toJSON() as TreeNode];
    for (let k = 0; k < entries.length; k++) {
      const node = entries[k];
      if ('children' in node) entries.push(...node.children);
    }
    const n = entries.length;
    this.boxes = new Float64Array(BOX * n);
    this.bulge = new Float64Array(n);
    this.first = new Int32Array(n).fill(size);
    this.last = new Int32Array(n).fill(-1);
    this.child = new Int32Array(n).fill(-1);
    this.childEnd = new Int32Array(n).fill(-1);
    this.#leaves = new Int32Array(groups.length);
    let next = 1;
    for (let k = 0; k < n; k++) {
      const node = entries[k];
      const { minX, minY, maxX, maxY } = node;
      const box = BOX * k;
      this.boxes[box] = (minX + maxX) / 2;
      this.boxes[box + 1] = (maxX - minX) / 2;
      this.boxes[box + 2] = (minY + maxY) / 2;
      this.boxes[box + 3] = (maxY - minY) / 2;
      this.boxes[box + 4] = Math.max(Math.cos(Math.max(Math.abs(minY), Math.abs(maxY)) * RADIAN), 0);
      if ('children' in node) {
        this.child[k] = next;
        this.childEnd[k] = next += node.children.length;
      } else {
        this.bulge[k] = node.bulge;
        this.first[k] = node.group;
        this.last[k] = Math.min(node.group + GROUP, size) - 1;
        this.#leaves[node.group / GROUP] = k;
      }
    }
    for (let k = n - 1; k >= 0; k--) {
      for (let c = this.child[k]; c < this.childEnd[k]; c++) {
        this.first[k] = Math.min(this.first[k], this.first[c]);
        this.last[k] = Math.max(this.last[k], this.last[c]);
      }
    }
  }

  /** The leaf that holds a segment. */
  leafOf(segment: number): number {
    return this.#leaves[Math.floor(segment / GROUP)];
  }
}

function boxOf(lon: ArrayLike<number>, lat: ArrayLike<number>, from: number, to: number): Group {
  let minX = lon[from];
  let maxX = minX;
  let minY = lat[from];
  let maxY = minY;
  let bulge = 0;
  for (let i = from; i < to; i++) {
    const reach = latitudeReach(lon[i], lat[i], lon[i + 1], lat[i + 1]);
    const x = lon[i + 1];
    const y = lat[i + 1];
    if (x < minX) minX = x;
    if (x > maxX) maxX = x;
    if (y < minY) minY = y;
    if (y > maxY) maxY = y;
    if (reach > maxY) maxY = reach;
    if (reach < minY) minY = reach;
    bulge = Math.max(bulge, reach - Math.max(lat[i], y), Math.min(lat[i], y) - reach);
  }
  return { minX, minY, maxX, maxY, group: from, bulge };
}
