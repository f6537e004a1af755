import RBush, { type BBox } from 'rbush';
import { unwrapLongitude } from '../geodesy';
import type { AreaRings, NamedArea } from './AreaRings';

/** Consecutive edges share one box: neighbours lie together anyway. */
const GROUP = 8;

/** Edges from `first` up to, not including, `end`, of one polygon. */
export interface EdgeGroup extends BBox {
  readonly first: number;
  readonly end: number;
  readonly polygon: number;
}

/** A polygon with its groups of edges, which lie side by side. */
export interface PolygonBox extends BBox {
  readonly polygon: number;
  readonly firstGroup: number;
  readonly endGroup: number;
}

/** Groups of a polygon from which on its own tree finds those beside a place sooner than trying each. */
const MANY = 16;

/**
 * The polygons of areas, and their edges, found by place: R-trees over boxes in degrees. Edge `e` runs from vertex `e` to
 * `e + 1`; the last vertex of a ring starts none.
 */
export class AreaIndex {
  readonly areas: readonly NamedArea[];
  /** Degrees, longitudes within half a turn of `near` where a polygon begins and continuous from there. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly groups: readonly EdgeGroup[];
  readonly polygons: readonly PolygonBox[];
  /** By polygon: its area, and the metres that its edges are known to. */
  readonly areaOf: Int32Array;
  readonly doubtOf: Float64Array;
  /** The longitude that all others are beside. */
  readonly near: number;
  readonly #rings: readonly (readonly [from: number, to: number])[][];
  readonly #groupTree = new RBush<EdgeGroup>(16);
  readonly #polygonTree = new RBush<PolygonBox>(16);
  /** The trees of polygons with many edges, made when first asked. */
  readonly #ownTrees = new Map<number, RBush<EdgeGroup>>();

  constructor({ areas, polygons }: AreaRings, near: number) {
    this.areas = areas;
    this.near = near;
    const vertices = polygons.reduce((sum, { rings }) => rings.reduce((n, ring) => n + ring.length, sum), 0);
    const x = new Float64Array(vertices);
    const y = new Float64Array(vertices);
    const groups: EdgeGroup[] = [];
    let at = 0;
    this.#rings = polygons.map(() => []);
    this.polygons = polygons.map(({ rings }, polygon) => {
      let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
      const firstGroup = groups.length;
      let before = near;
      for (const ring of rings) {
        const begin = at;
        for (const [longitude, latitude] of ring) {
          before = unwrapLongitude(longitude, before);
          x[at] = before;
          y[at++] = latitude;
        }
        this.#rings[polygon].push([begin, at]);
        for (let first = begin; first + 1 < at; first += GROUP) {
          const end = Math.min(first + GROUP, at - 1);
          let [west, south, east, north] = [x[first], y[first], x[first], y[first]];
          for (let v = first + 1; v <= end; v++) {
            if (x[v] < west) west = x[v];
            if (x[v] > east) east = x[v];
            if (y[v] < south) south = y[v];
            if (y[v] > north) north = y[v];
          }
          groups.push({ minX: west, minY: south, maxX: east, maxY: north, first, end, polygon });
          if (west < minX) minX = west;
          if (south < minY) minY = south;
          if (east > maxX) maxX = east;
          if (north > maxY) maxY = north;
        }
      }
      return { minX, minY, maxX, maxY, polygon, firstGroup, endGroup: groups.length };
    });
    this.x = x;
    this.y = y;
    this.groups = groups;
    this.areaOf = Int32Array.from(polygons, ({ area }) => area);
    this.doubtOf = Float64Array.from(polygons, ({ doubt95 }) => doubt95);
    this.#groupTree.load(groups.slice());
    this.#polygonTree.load(this.polygons.slice());
  }

  /** The rings of a polygon, each from its first vertex up to, not including, the one after its last. */
  ringsOf(polygon: number): readonly (readonly [from: number, to: number])[] {
    return this.#rings[polygon];
  }

  groupsIn(box: BBox): EdgeGroup[] {
    return this.#groupTree.search(box);
  }

  polygonsIn(box: BBox): PolygonBox[] {
    return this.#polygonTree.search(box);
  }

  /** Whether a place lies in a polygon, by how many edges lie east of it; on an edge it is left to rounding. */
  holds(polygon: number, px: number, py: number): boolean {
    const { firstGroup, endGroup, minX, minY, maxX, maxY } = this.polygons[polygon];
    if (px < minX || px > maxX || py < minY || py > maxY) return false;
    const { x, y } = this;
    let odd = false;
    const count = ({ first, end }: EdgeGroup) => {
      for (let e = first; e < end; e++) {
        if (y[e] > py === y[e + 1] > py) continue;
        if (px < x[e] + ((py - y[e]) * (x[e + 1] - x[e])) / (y[e + 1] - y[e])) odd = !odd;
      }
    };
    if (endGroup - firstGroup < MANY) for (let g = firstGroup; g < endGroup; g++) count(this.groups[g]);
    else this.#own(polygon).search({ minX: px, minY: py, maxX, maxY: py }).forEach(count);
    return odd;
  }

  #own(polygon: number): RBush<EdgeGroup> {
    let tree = this.#ownTrees.get(polygon);
    if (!tree) {
      const { firstGroup, endGroup } = this.polygons[polygon];
      tree = new RBush<EdgeGroup>(16).load(this.groups.slice(firstGroup, endGroup));
      this.#ownTrees.set(polygon, tree);
    }
    return tree;
  }
}
