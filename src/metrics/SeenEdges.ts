import { squaredToEdge } from './squaredToEdge';

/** Edges by their number this close to the direction of the axis, as a share of their length, are along it. */
const ALONG = 1e-12;

/** Edges of a plane, seen from an axis of it: columns that only grow, so that they are written anew without garbage. */
export class SeenEdges {
  count = 0;
  /** Their numbers. */
  readonly edges: number[] = [];
  /** Their ends. */
  readonly px: number[] = [];
  readonly py: number[] = [];
  readonly qx: number[] = [];
  readonly qy: number[] = [];
  /** The part of the axis within a width of one, {@link SeenEdges.reach}; none where it is not over its beginning. */
  from = Number.NaN;
  to = Number.NaN;

  /** The squared distance from a place x of the axis, `bend` (x − `foot`)² + `rest`, {@link SeenEdges.follows}. */
  bend = Number.NaN;
  foot = Number.NaN;
  rest = Number.NaN;

  add(edge: number, px: number, py: number, qx: number, qy: number): void {
    const at = this.count++;
    this.edges[at] = edge;
    this.px[at] = px;
    this.py[at] = py;
    this.qx[at] = qx;
    this.qy[at] = qy;
  }

  /** Squared distance from a place of the axis to one of them. */
  squaredFrom(at: number, x: number): number {
    return squaredToEdge(this.px[at] - x, this.py[at], this.qx[at] - x, this.qy[at]);
  }

  /** Looks for the part of the axis within a width of one. */
  reach(at: number, width: number): void {
    const px = this.px[at];
    const py = this.py[at];
    const qx = this.qx[at];
    const qy = this.qy[at];
    const dx = qx - px;
    const dy = qy - py;
    const width2 = width * width;
    const roomP = width2 - py * py;
    const roomQ = width2 - qy * qy;
    const size2 = dx * dx + dy * dy;
    this.from = Infinity;
    this.to = -Infinity;
    if (dy * dy <= ALONG * ALONG * size2) {
      if (roomP < 0) return;
      const half = Math.sqrt(roomP);
      this.from = Math.min(px, qx) - half;
      this.to = Math.max(px, qx) + half;
      return;
    }
    // where the straight lines to either side of it pass the axis; beyond its ends the round ones do
    const middle = px - (py * dx) / dy;
    const half = (width * Math.sqrt(size2)) / Math.abs(dy);
    let from = middle - half;
    let to = middle + half;
    const footFrom = (from - px) * dx - py * dy;
    if (footFrom < 0 || footFrom > size2) {
      const room = footFrom < 0 ? roomP : roomQ;
      if (room < 0) return;
      from = (footFrom < 0 ? px : qx) - Math.sqrt(room);
    }
    const footTo = (to - px) * dx - py * dy;
    if (footTo < 0 || footTo > size2) {
      const room = footTo < 0 ? roomP : roomQ;
      if (room < 0) return;
      to = (footTo < 0 ? px : qx) + Math.sqrt(room);
    }
    this.from = from;
    this.to = to;
  }

  /** Looks for the squared distance from one along a stretch; whether it is one function there, that of another, seen before. */
  follows(first: number, at: number, from: number, to: number): boolean {
    const px = this.px[at];
    const py = this.py[at];
    const dx = this.qx[at] - px;
    const dy = this.qy[at] - py;
    const size2 = dx * dx + dy * dy;
    const footFrom = (from - px) * dx - py * dy;
    const footTo = (to - px) * dx - py * dy;
    let bend = 1;
    let foot = px;
    let rest = py * py;
    if (footFrom >= size2 && footTo >= size2) {
      foot = this.qx[at];
      rest = this.qy[at] ** 2;
    } else if (footFrom > 0 || footTo > 0) {
      if (!(footFrom >= 0 && footTo >= 0 && footFrom <= size2 && footTo <= size2)) return false;
      bend = (dy * dy) / size2;
      if (bend <= ALONG * ALONG) bend = 0;
      else {
        foot = px - (py * dx) / dy;
        rest = 0;
      }
    }
    if (first === at) {
      this.bend = bend;
      this.foot = foot;
      this.rest = rest;
      return true;
    }
    return this.bend === bend && this.foot === foot && this.rest === rest;
  }
}
