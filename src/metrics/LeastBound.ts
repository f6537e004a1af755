/** Edges as far off as this more are as near, as a share and in metres: what rounding and the plane make of it. */
const SHARE = 1e-7;
const ROOM = 1e-6;

/**
 * Tells what can't come nearer to any place of a straight piece than one edge is, by the squared distances from its ends.
 *
 * At the share t of a piece of length l the squared distance from anything at all is no less than (1 − t) a² + t b² − t (1 − t) l²,
 * Stewart's theorem for the nearest point; that from an edge, which is convex, no more than ((1 − t) u + t v)².
 */
export class LeastBound {
  squaredFrom = Infinity;
  squaredTo = Infinity;
  #room = 0;

  /** Takes an edge by its squared distances from the ends of a piece. */
  take(squaredFrom: number, squaredTo: number, length: number): void {
    const from = Math.sqrt(squaredFrom) * (1 + SHARE) + ROOM;
    const to = Math.sqrt(squaredTo) * (1 + SHARE) + ROOM;
    this.squaredFrom = from * from;
    this.squaredTo = to * to;
    this.#room = length * length - (from - to) * (from - to);
  }

  /** Whether what is so far from the ends is farther everywhere. */
  excludes(squaredFrom: number, squaredTo: number): boolean {
    const a = squaredFrom - this.squaredFrom;
    if (!(a > 0)) return false;
    const b = squaredTo - this.squaredTo;
    if (!(b > 0)) return false;
    // √a + √b over the root of the room
    const rest = this.#room - a - b;
    return rest < 0 || 4 * a * b > rest * rest;
  }
}
