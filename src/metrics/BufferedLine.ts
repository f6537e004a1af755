import type { Curve } from './Curve';
import type { NearestEdge } from './NearestEdge';

// Distances up to this much over the width count as within, metres: some ten times the last bits of earth-centred
// coordinates. Where a line touches its buffer's edge the share goes with the root of the width, so it can't be wider.
const TOLERANCE = 1e-8;

// Places along an edge are found to this, metres: ten times the last bits of earth-centred coordinates.
const PLACE = 1e-8;

/**
 * The edges of a line against the buffer of another: how much of each lies within a width.
 *
 * An edge is walked from its start. Within the width, the distance to one near edge of the other line is convex, so that it
 * says how far the walk stays inside; outside, the edges that can come within are tried for the first to do so.
 */
export class BufferedLine {
  /** Metres of each edge; 1 for each where all are 0, so that points count by number. */
  readonly weights: Float64Array;

  readonly #near: NearestEdge;
  readonly #curve: Curve;
  readonly #place = new Float64Array(3);
  #guess = 0;

  constructor(tested: Curve, reference: NearestEdge) {
    this.#curve = tested;
    this.#near = reference;
    const { x, y, z } = tested.vertices;
    this.weights = Float64Array.from({ length: tested.edges }, (_, i) =>
      tested.gap?.[i] === 1 ? 0 : Math.hypot(x[i + 1] - x[i], y[i + 1] - y[i], z[i + 1] - z[i]),
    );
    if (!this.weights.some((weight) => weight > 0)) {
      for (let i = 0; i < tested.edges; i++) this.weights[i] = tested.gap?.[i] === 1 ? 0 : 1;
    }
  }

  /** The share of one edge, 0 to 1, within `width` metres of the other line. */
  shareWithin(edge: number, width: number): number {
    const { x, y, z } = this.#curve.vertices;
    const length = Math.hypot(x[edge + 1] - x[edge], y[edge + 1] - y[edge], z[edge + 1] - z[edge]);
    const limit = (width + TOLERANCE) ** 2;
    const least = length > 0 ? PLACE / length : 1;
    let outside = 0;
    let from = 0;
    while (from < 1) {
      this.#moveTo(edge, from);
      this.#near.offer(this.#guess);
      this.#near.walk();
      if (this.#near.squared > limit) this.#near.search(limit);
      this.#guess = this.#near.edge;
      if (this.#near.squared <= limit) {
        const end = this.#squared(edge, 1, this.#guess) <= limit;
        from = end ? 1 : this.#crossing(edge, this.#guess, from, 1, limit, least) + least;
      } else {
        const entry = this.#entry(edge, from, width, limit, length, least);
        outside += entry - from;
        from = entry;
      }
    }
    return 1 - outside;
  }

  #moveTo(edge: number, fraction: number): void {
    const place = this.#place;
    this.#curve.vertices.between(edge, fraction, place);
    this.#near.moveTo(place[0], place[1], place[2]);
  }

  #squared(edge: number, fraction: number, other: number): number {
    this.#moveTo(edge, fraction);
    return this.#near.measure(other);
  }

  /** Where the squared distance to one edge passes the limit, between a fraction within and one beyond. */
  #crossing(edge: number, other: number, within: number, beyond: number, limit: number, least: number): number {
    while (Math.abs(beyond - within) > least) {
      const middle = (within + beyond) / 2;
      if (this.#squared(edge, middle, other) <= limit) within = middle;
      else beyond = middle;
    }
    return within;
  }

  /** The first fraction after `from`, which is outside, that is within; 1 or more where none is. */
  #entry(edge: number, from: number, width: number, limit: number, length: number, least: number): number {
    if (length === 0) return 1;
    this.#moveTo(edge, (from + 1) / 2);
    const others = this.#near.within((width + TOLERANCE + ((1 - from) * length) / 2) ** 2);
    let first = 1;
    for (const other of others) {
      const inside = this.#someWithin(edge, other, from, first, width, length, least);
      if (inside !== undefined) first = this.#crossing(edge, other, inside, from, limit, least);
    }
    return first;
  }

  /** Some fraction between two at which an edge is within the width, by closing in on the least distance: convex. */
  #someWithin(
    edge: number,
    other: number,
    from: number,
    to: number,
    width: number,
    length: number,
    least: number,
  ): number | undefined {
    const at = (fraction: number) => Math.sqrt(this.#squared(edge, fraction, other));
    const limit = width + TOLERANCE;
    let [low, high] = [from, to];
    let [atLow, atHigh] = [at(low), at(high)];
    if (atHigh <= limit) return high;
    // no distance changes faster than the walk goes
    while (high - low > least && (atLow + atHigh - (high - low) * length) / 2 <= limit) {
      const left = low + (high - low) / 3;
      const right = high - (high - low) / 3;
      const [atLeft, atRight] = [at(left), at(right)];
      if (atLeft <= limit) return left;
      if (atRight <= limit) return right;
      if (atLeft < atRight) [high, atHigh] = [right, atRight];
      else [low, atLow] = [left, atLeft];
    }
    return undefined;
  }
}
