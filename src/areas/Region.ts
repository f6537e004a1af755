import type { AreaIndex, Box } from './AreaIndex';
import { degreeMetres } from './degreeMetres';
import { reachAlong } from './reachAlong';

/** Metres: nearer than this to an edge a place is on it. Degrees are rounded to some nanometres. */
export const ON_EDGE = 1e-6;

/** Degrees added to a box lest rounding leave out what touches it. */
const LITTLE = 1e-9;

/** Both ends of an edge, as shares of it. */
const WHOLE: readonly number[] = [0, 1];

/** Metres aside from an edge at which its two sides are looked at. */
const BESIDE = 1e-5;

/** Metres, and radians from the line: a place is looked at so much aside, lest it lie on a seam between two polygons. */
const ASIDE = 5e-7;
const SLANT = 0.3;

/**
 * - `inside`, `outside`: by more than what the edges are known to
 * - `undecided`: nearer to an edge
 */
export type Standing = 'inside' | 'outside' | 'undecided';

/** A part of a straight line, as shares of it. */
export interface StandingPart {
  readonly from: number;
  readonly to: number;
  readonly standing: Standing;
}

/** Some of the areas of an index taken as one: edges with it on both sides, where polygons overlap or touch, are none. */
export class Region {
  readonly index: AreaIndex;
  /** The areas that it is made of. */
  readonly #areas: ReadonlySet<number>;
  /** Metres: the most that any of its edges is known to. */
  readonly reach: number;
  /** Its area, where it is of one. */
  readonly onlyArea: number | undefined;
  /** By polygon: whether no other of the region touches its box. */
  readonly #alone = new Map<number, boolean>();
  /** By edge: which shares of it bound the region, two numbers each. */
  readonly #bounds = new Map<number, readonly number[]>();

  /** @param areas - Numbers of those that it is made of; all unless stated. */
  constructor(index: AreaIndex, areas: Iterable<number> = index.areas.keys()) {
    this.index = index;
    this.#areas = new Set(areas);
    this.onlyArea = this.#areas.size === 1 ? [...this.#areas][0] : undefined;
    let reach = ON_EDGE;
    for (const area of this.#areas) if (index.reachOf[area] > reach) reach = index.reachOf[area];
    this.reach = reach;
  }

  /** Whether a polygon belongs to it. */
  #has(polygon: number): boolean {
    const area = this.index.areaOf[polygon];
    return this.onlyArea === undefined ? this.#areas.has(area) : area === this.onlyArea;
  }

  /** The groups of its edges in a box. */
  groupsIn(box: Box): number[] {
    const { polygonOf } = this.index;
    return this.index.groupsIn(box).filter((group) => this.#has(polygonOf[group]));
  }

  /** The areas that something in a box can lie in, or too near to tell. */
  areasNear({ minX, minY, maxX, maxY }: Box): Set<number> {
    const { areaOf } = this.index;
    const { east, north } = degreeMetres(Math.max(Math.abs(minY), Math.abs(maxY)));
    const [aside, ahead] = [this.reach / east, this.reach / north];
    const near = this.index.polygonsIn({
      minX: minX - aside,
      minY: minY - ahead,
      maxX: maxX + aside,
      maxY: maxY + ahead,
    });
    return new Set(near.flatMap((polygon) => (this.#has(polygon) ? areaOf[polygon] : [])));
  }

  /** Whether it holds a place; on an edge it is left to rounding. */
  holds(px: number, py: number): boolean {
    return this.index
      .polygonsIn({ minX: px, minY: py, maxX: px, maxY: py })
      .some((polygon) => this.#has(polygon) && this.index.holds(polygon, px, py));
  }

  /**
   * How a line that is straight in degrees stands to the region, from end to end.
   *
   * @param groups - Those of its edges that may be within its reach.
   * @param before - How the place before it stood, where that is known: a line that no edge is near goes on so.
   */
  parts(x0: number, y0: number, x1: number, y1: number, groups: readonly number[], before?: Standing): StandingPart[] {
    const { x, y, doubtOf, first, end, polygonOf, groupBoxes } = this.index;
    const { east, north } = degreeMetres((y0 + y1) / 2);
    const dx = (x1 - x0) * east;
    const dy = (y1 - y0) * north;
    const doubtful: (readonly [number, number])[] = [];
    let near = false;
    const west = Math.min(0, dx);
    const right = Math.max(0, dx);
    const south = Math.min(0, dy);
    const up = Math.max(0, dy);
    for (const group of groups) {
      const polygon = polygonOf[group];
      const reach = Math.max(ON_EDGE, doubtOf[polygon]);
      const box = 4 * group;
      if ((groupBoxes[box] - x0) * east > right + reach || (groupBoxes[box + 2] - x0) * east < west - reach) continue;
      if ((groupBoxes[box + 1] - y0) * north > up + reach) continue;
      if ((groupBoxes[box + 3] - y0) * north < south - reach) continue;
      let bx = (x[first[group]] - x0) * east;
      let by = (y[first[group]] - y0) * north;
      for (let e = first[group]; e < end[group]; e++) {
        const ax = bx;
        const ay = by;
        bx = (x[e + 1] - x0) * east;
        by = (y[e + 1] - y0) * north;
        if (Math.min(ax, bx) > right + reach || Math.max(ax, bx) < west - reach) continue;
        if (Math.min(ay, by) > up + reach || Math.max(ay, by) < south - reach) continue;
        near = true;
        const bounds = this.bounds(e, polygon);
        for (let k = 0; k < bounds.length; k += 2) {
          const s = bounds[k];
          const t = bounds[k + 1];
          const part = reachAlong(
            dx,
            dy,
            ax + s * (bx - ax),
            ay + s * (by - ay),
            ax + t * (bx - ax),
            ay + t * (by - ay),
            reach,
          );
          if (part) doubtful.push(part);
        }
      }
    }
    if (!near && before !== undefined && before !== 'undecided') return [{ from: 0, to: 1, standing: before }];
    if (doubtful.length > 1) doubtful.sort((a, b) => a[0] - b[0]);
    const length = Math.hypot(dx, dy);
    const [cos, sin] = [Math.cos(SLANT) * ASIDE, Math.sin(SLANT) * ASIDE];
    const [ux, uy] = length > 0 ? [dx / length, dy / length] : [1, 0];
    const [aside, beside] = [(ux * cos - uy * sin) / east, (ux * sin + uy * cos) / north];
    const parts: StandingPart[] = [];
    const decide = (from: number, to: number) => {
      const middle = (from + to) / 2;
      const held = this.holds(x0 + middle * (x1 - x0) + aside, y0 + middle * (y1 - y0) + beside);
      parts.push({ from, to, standing: held ? 'inside' : 'outside' });
    };
    let at = 0;
    for (const [from, to] of doubtful) {
      if (from > at) decide(at, from);
      const begin = Math.max(from, at);
      const last = parts[parts.length - 1];
      if (to <= at && last?.standing === 'undecided') continue;
      if (last?.standing === 'undecided') parts[parts.length - 1] = { ...last, to };
      else parts.push({ from: begin, to: Math.max(begin, to), standing: 'undecided' });
      at = Math.max(at, to);
    }
    if (at < 1 || parts.length === 0) decide(at, 1);
    return parts;
  }

  /** Which shares of an edge bound the region: all of it where no other of its polygons is near. */
  bounds(edge: number, polygon: number): readonly number[] {
    if (this.#isAlone(polygon)) return WHOLE;
    let bounds = this.#bounds.get(edge);
    if (!bounds) {
      bounds = this.#boundsOf(edge, polygon);
      this.#bounds.set(edge, bounds);
    }
    return bounds;
  }

  /** Whether no other polygon of the region touches the box of one. */
  #isAlone(polygon: number): boolean {
    const known = this.#alone.get(polygon);
    if (known !== undefined) return known;
    const { polygonBoxes: boxes } = this.index;
    const at = 4 * polygon;
    // a micrometre and more at any latitude up to 89°
    const box = {
      minX: boxes[at] - LITTLE,
      minY: boxes[at + 1] - LITTLE,
      maxX: boxes[at + 2] + LITTLE,
      maxY: boxes[at + 3] + LITTLE,
    };
    const alone = !this.index.polygonsIn(box).some((other) => other !== polygon && this.#has(other));
    this.#alone.set(polygon, alone);
    return alone;
  }

  #boundsOf(edge: number, polygon: number): readonly number[] {
    const { x, y, first, end, polygonOf } = this.index;
    const { east, north } = degreeMetres((y[edge] + y[edge + 1]) / 2);
    const [dx, dy] = [(x[edge + 1] - x[edge]) * east, (y[edge + 1] - y[edge]) * north];
    const length = Math.hypot(dx, dy);
    if (!(length > 0)) return WHOLE;
    const box = {
      minX: Math.min(x[edge], x[edge + 1]) - BESIDE / east,
      minY: Math.min(y[edge], y[edge + 1]) - BESIDE / north,
      maxX: Math.max(x[edge], x[edge + 1]) + BESIDE / east,
      maxY: Math.max(y[edge], y[edge + 1]) + BESIDE / north,
    };
    const cuts = [0, 1];
    for (const group of this.groupsIn(box)) {
      if (polygonOf[group] === polygon) continue;
      for (let e = first[group]; e < end[group]; e++) {
        const [ax, ay] = [(x[e] - x[edge]) * east, (y[e] - y[edge]) * north];
        const [ex, ey] = [(x[e + 1] - x[e]) * east, (y[e + 1] - y[e]) * north];
        const across = dx * ey - dy * ex;
        // where the two cross, and where the other's ends lie on this one
        if (across !== 0) {
          const share = (ax * ey - ay * ex) / across;
          const onOther = (ax * dy - ay * dx) / across;
          if (onOther >= 0 && onOther <= 1) cuts.push(share);
        }
        for (const [vx, vy] of [
          [ax, ay],
          [ax + ex, ay + ey],
        ]) {
          if (Math.abs(dx * vy - dy * vx) <= BESIDE * length) cuts.push((dx * vx + dy * vy) / length ** 2);
        }
      }
    }
    const within = cuts.filter((share) => share >= 0 && share <= 1).sort((a, b) => a - b);
    const bounds: number[] = [];
    const [nx, ny] = [((-dy / length) * BESIDE) / east, ((dx / length) * BESIDE) / north];
    for (let i = 1; i < within.length; i++) {
      const [from, to] = [within[i - 1], within[i]];
      if ((to - from) * length <= ON_EDGE) continue;
      const middle = (from + to) / 2;
      const px = x[edge] + middle * (x[edge + 1] - x[edge]);
      const py = y[edge] + middle * (y[edge + 1] - y[edge]);
      if (this.holds(px + nx, py + ny) === this.holds(px - nx, py - ny)) continue;
      if (bounds.length > 0 && bounds[bounds.length - 1] === from) bounds[bounds.length - 1] = to;
      else bounds.push(from, to);
    }
    return bounds;
  }
}
