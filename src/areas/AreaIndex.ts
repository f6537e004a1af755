import Flatbush from 'flatbush';
import { unwrapLongitude } from '../geodesy';
import type { AreaRings, NamedArea } from './AreaRings';

/** Consecutive edges share one box: neighbours lie together anyway. */
const GROUP = 8;

/** Groups of a polygon from which on its own tree finds those beside a place sooner than trying each. */
const MANY = 16;

/** A box in degrees. */
export interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/**
 * The polygons of areas, and their edges, found by place: R-trees over boxes in degrees. Edge `e` runs from vertex `e` to
 * `e + 1`; the last vertex of a ring starts none. At least one polygon.
 */
export class AreaIndex {
  readonly areas: readonly NamedArea[];
  /** Degrees, longitudes within half a turn of `near` where a polygon begins and continuous from there. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** By group of consecutive edges: the first, the one after the last, and their polygon. */
  readonly first: Int32Array;
  readonly end: Int32Array;
  readonly polygonOf: Int32Array;
  /** By group, least x, least y, greatest x, greatest y. */
  readonly groupBoxes: Float64Array;
  /** By polygon: its area, and the metres that its edges are known to. */
  readonly areaOf: Int32Array;
  readonly doubtOf: Float64Array;
  /** By area, the most metres that any of its edges is known to. */
  readonly reachOf: Float64Array;
  /** By polygon, as `groupBoxes`. */
  readonly polygonBoxes: Float64Array;
  /** The longitude that all others are beside. */
  readonly near: number;
  /** By polygon, its first group and, one beyond the last, the number of groups; rings likewise, by their first vertices. */
  readonly #groupsOf: Int32Array;
  readonly #ringsOf: Int32Array;
  readonly #ringStarts: Int32Array;
  readonly #groupTree: Flatbush;
  readonly #polygonTree: Flatbush;
  /** The trees of polygons with many edges, made when first asked. */
  readonly #ownTrees = new Map<number, Flatbush>();

  constructor({ areas, polygons }: AreaRings, near: number) {
    this.areas = areas;
    this.near = near;
    let [vertices, rings, groups] = [0, 0, 0];
    for (const polygon of polygons) {
      rings += polygon.rings.length;
      for (const ring of polygon.rings) {
        vertices += ring.length;
        groups += Math.ceil((ring.length - 1) / GROUP);
      }
    }
    this.x = new Float64Array(vertices);
    this.y = new Float64Array(vertices);
    this.first = new Int32Array(groups);
    this.end = new Int32Array(groups);
    this.polygonOf = new Int32Array(groups);
    this.groupBoxes = new Float64Array(4 * groups);
    this.polygonBoxes = new Float64Array(4 * polygons.length);
    this.areaOf = new Int32Array(polygons.length);
    this.doubtOf = new Float64Array(polygons.length);
    this.reachOf = new Float64Array(areas.length);
    this.#groupsOf = new Int32Array(polygons.length + 1).fill(groups);
    this.#ringsOf = new Int32Array(polygons.length + 1).fill(rings);
    this.#ringStarts = new Int32Array(rings + 1).fill(vertices);
    this.#groupTree = new Flatbush(groups);
    // polygons of one group each, as houses are, have its box
    this.#polygonTree = groups === polygons.length ? this.#groupTree : new Flatbush(polygons.length);
    this.#fill(polygons);
    this.#groupTree.finish();
    if (this.#polygonTree !== this.#groupTree) this.#polygonTree.finish();
  }

  #fill(polygons: AreaRings['polygons']): void {
    const { x, y, groupBoxes, polygonBoxes } = this;
    const sameTree = this.#polygonTree === this.#groupTree;
    let [vertex, ringNumber, group] = [0, 0, 0];
    for (let p = 0; p < polygons.length; p++) {
      const { area, doubt95 } = polygons[p];
      this.areaOf[p] = area;
      this.doubtOf[p] = doubt95;
      if (doubt95 > this.reachOf[area]) this.reachOf[area] = doubt95;
      this.#groupsOf[p] = group;
      this.#ringsOf[p] = ringNumber;
      const firstGroup = group;
      let before = this.near;
      for (const ring of polygons[p].rings) {
        const begin = vertex;
        this.#ringStarts[ringNumber++] = begin;
        for (const position of ring) {
          before = unwrapLongitude(position[0], before);
          x[vertex] = before;
          y[vertex++] = position[1];
        }
        for (let first = begin; first + 1 < vertex; first += GROUP) {
          const end = Math.min(first + GROUP, vertex - 1);
          this.first[group] = first;
          this.end[group] = end;
          this.polygonOf[group] = p;
          let west = x[first];
          let south = y[first];
          let east = west;
          let north = south;
          for (let v = first + 1; v <= end; v++) {
            if (x[v] < west) west = x[v];
            if (x[v] > east) east = x[v];
            if (y[v] < south) south = y[v];
            if (y[v] > north) north = y[v];
          }
          setBox(groupBoxes, group++, west, south, east, north);
          this.#groupTree.add(west, south, east, north);
        }
      }
      const at = 4 * firstGroup;
      let west = groupBoxes[at];
      let south = groupBoxes[at + 1];
      let east = groupBoxes[at + 2];
      let north = groupBoxes[at + 3];
      for (let g = firstGroup + 1; g < group; g++) {
        west = Math.min(west, groupBoxes[4 * g]);
        south = Math.min(south, groupBoxes[4 * g + 1]);
        east = Math.max(east, groupBoxes[4 * g + 2]);
        north = Math.max(north, groupBoxes[4 * g + 3]);
      }
      setBox(polygonBoxes, p, west, south, east, north);
      if (!sameTree) this.#polygonTree.add(west, south, east, north);
    }
  }

  /** The rings of a polygon, each from its first vertex up to, not including, the one after its last. */
  ringsOf(polygon: number): [from: number, to: number][] {
    const rings: [number, number][] = [];
    for (let r = this.#ringsOf[polygon]; r < this.#ringsOf[polygon + 1]; r++) {
      rings.push([this.#ringStarts[r], this.#ringStarts[r + 1]]);
    }
    return rings;
  }

  /** The groups of edges whose boxes reach into one. */
  groupsIn({ minX, minY, maxX, maxY }: Box): number[] {
    return this.#groupTree.search(minX, minY, maxX, maxY);
  }

  /** The polygons whose boxes reach into one. */
  polygonsIn({ minX, minY, maxX, maxY }: Box): number[] {
    return this.#polygonTree.search(minX, minY, maxX, maxY);
  }

  /** Whether a place lies in a polygon, by how many edges lie east of it; on an edge it is left to rounding. */
  holds(polygon: number, px: number, py: number): boolean {
    const boxes = this.polygonBoxes;
    const at = 4 * polygon;
    if (!(px >= boxes[at] && py >= boxes[at + 1] && px <= boxes[at + 2] && py <= boxes[at + 3])) return false;
    const [firstGroup, endGroup] = [this.#groupsOf[polygon], this.#groupsOf[polygon + 1]];
    let odd = false;
    if (endGroup - firstGroup < MANY) {
      for (let g = firstGroup; g < endGroup; g++) if (this.#isOdd(g, px, py)) odd = !odd;
    } else {
      for (const g of this.#own(polygon).search(px, py, boxes[at + 2], py)) {
        if (this.#isOdd(firstGroup + g, px, py)) odd = !odd;
      }
    }
    return odd;
  }

  /** Whether an odd number of the edges of a group lies east of a place. */
  #isOdd(group: number, px: number, py: number): boolean {
    const { x, y } = this;
    let odd = false;
    for (let e = this.first[group]; e < this.end[group]; e++) {
      if (y[e] > py === y[e + 1] > py) continue;
      if (px < x[e] + ((py - y[e]) * (x[e + 1] - x[e])) / (y[e + 1] - y[e])) odd = !odd;
    }
    return odd;
  }

  #own(polygon: number): Flatbush {
    let tree = this.#ownTrees.get(polygon);
    if (!tree) {
      const [begin, end] = [this.#groupsOf[polygon], this.#groupsOf[polygon + 1]];
      tree = new Flatbush(end - begin);
      for (let at = 4 * begin; at < 4 * end; at += 4) {
        const boxes = this.groupBoxes;
        tree.add(boxes[at], boxes[at + 1], boxes[at + 2], boxes[at + 3]);
      }
      tree.finish();
      this.#ownTrees.set(polygon, tree);
    }
    return tree;
  }
}

function setBox(boxes: Float64Array, i: number, west: number, south: number, east: number, north: number): void {
  boxes[4 * i] = west;
  boxes[4 * i + 1] = south;
  boxes[4 * i + 2] = east;
  boxes[4 * i + 3] = north;
}
