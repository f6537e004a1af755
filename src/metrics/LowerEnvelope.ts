/** Straight across the axis, or along it, to rounding. */
const NO_SLOPE = 1e-12;

/**
 * The least of several functions over a stretch of an axis, piece by piece; each is `bend` (x − `foot`)² + `rest`, as the
 * squared distance from the places of a straight line to a point or to another straight line is.
 *
 * Columns that only grow: piece `k` of `count` reaches from `froms[k]` to `froms[k + 1]`.
 */
export class LowerEnvelope {
  count = 0;
  froms: number[] = [];
  bends: number[] = [];
  feet: number[] = [];
  rests: number[] = [];
  // what is being written while the others are read
  #froms: number[] = [];
  #bends: number[] = [];
  #feet: number[] = [];
  #rests: number[] = [];
  #written = 0;

  /** Begins anew, with a constant or another function. */
  begin(from: number, to: number, rest: number, bend = 0, foot = 0): void {
    this.count = 1;
    this.froms[0] = from;
    this.froms[1] = to;
    this.bends[0] = bend;
    this.feet[0] = foot;
    this.rests[0] = rest;
  }

  /** Takes in one more function, from one place to another. */
  lower(from: number, to: number, bend: number, foot: number, rest: number): void {
    const { count, froms, bends, feet, rests } = this;
    // most often it is nowhere less
    let k = 0;
    while (k < count && !this.#isLess(k, from, to, bend, foot, rest)) k++;
    if (k === count) return;
    this.#written = 0;
    for (k = 0; k < count; k++) {
      const begin = froms[k];
      const low = Math.max(begin, from);
      const high = Math.min(froms[k + 1], to);
      this.#write(begin, bends[k], feet[k], rests[k]);
      if (!(low < high)) continue;
      // the new one less the old: a t² + b t + c, t from low on
      const a = bend - bends[k];
      const b = 2 * (bend * (low - foot) - bends[k] * (low - feet[k]));
      const c = bend * (low - foot) ** 2 + rest - bends[k] * (low - feet[k]) ** 2 - rests[k];
      const length = high - low;
      const end = (a * length + b) * length + c;
      const root2 = b * b - 4 * a * c;
      // where they but touch, rounding decides whether they cross
      let first = -b / (2 * a);
      let second = first;
      if (root2 > 0) {
        const q = -(b + (b < 0 ? -Math.sqrt(root2) : Math.sqrt(root2))) / 2;
        const [one, other] = [q / a, c / q];
        first = Math.min(one, other);
        second = Math.max(one, other);
      }
      if (c < 0 && end < 0) {
        this.#write(low, bend, foot, rest);
        if (a < 0 && root2 > 0 && first > 0 && second < length) {
          this.#write(low + first, bends[k], feet[k], rests[k]);
          this.#write(low + second, bend, foot, rest);
        }
        if (high < froms[k + 1]) this.#write(high, bends[k], feet[k], rests[k]);
      } else if (c < 0) {
        this.#write(low, bend, foot, rest);
        this.#write(low + within(first, second, length), bends[k], feet[k], rests[k]);
      } else if (end < 0) {
        this.#write(low + within(first, second, length), bend, foot, rest);
        if (high < froms[k + 1]) this.#write(high, bends[k], feet[k], rests[k]);
      } else if (a > 0 && root2 > 0 && second > 0 && first < length) {
        this.#write(low + Math.max(first, 0), bend, foot, rest);
        this.#write(low + Math.min(second, length), bends[k], feet[k], rests[k]);
      }
    }
    const last = froms[count];
    [this.froms, this.#froms] = [this.#froms, this.froms];
    [this.bends, this.#bends] = [this.#bends, this.bends];
    [this.feet, this.#feet] = [this.#feet, this.feet];
    [this.rests, this.#rests] = [this.#rests, this.rests];
    this.count = this.#written;
    this.froms[this.count] = last;
  }

  /** Whether a function is anywhere less than a piece. */
  #isLess(k: number, from: number, to: number, bend: number, foot: number, rest: number): boolean {
    const low = Math.max(this.froms[k], from);
    const length = Math.min(this.froms[k + 1], to) - low;
    if (!(length > 0)) return false;
    const [x, y] = [low - foot, low - this.feet[k]];
    const a = bend - this.bends[k];
    const b = 2 * (bend * x - this.bends[k] * y);
    const c = bend * x * x + rest - this.bends[k] * y * y - this.rests[k];
    if (c < 0 || (a * length + b) * length + c < 0) return true;
    return a > 0 && b < 0 && b + 2 * a * length > 0 && b * b > 4 * a * c;
  }

  /** Takes in the squared distance from the axis to an edge between two places. */
  lowerTo(px: number, py: number, qx: number, qy: number): void {
    const from = this.froms[0];
    const to = this.froms[this.count];
    const size = Math.sqrt((qx - px) * (qx - px) + (qy - py) * (qy - py));
    if (!(size > 0)) {
      this.lower(from, to, 1, px, py * py);
      return;
    }
    const ux = (qx - px) / size;
    const uy = (qy - py) / size;
    // from where on the foot is no more the one end, and is the other
    let begin = Infinity;
    let end = Infinity;
    if (Math.abs(ux) > NO_SLOPE) {
      begin = px + (py * uy) / ux;
      end = begin + size / ux;
    } else if (-py * uy > size) [begin, end] = [-Infinity, -Infinity];
    else if (-py * uy >= 0) begin = -Infinity;
    const isForward = begin <= end;
    const low = isForward ? begin : end;
    const high = isForward ? end : begin;
    if (from < low) this.lower(from, Math.min(to, low), 1, isForward ? px : qx, isForward ? py * py : qy * qy);
    if (to > high) this.lower(Math.max(from, high), to, 1, isForward ? qx : px, isForward ? qy * qy : py * py);
    if (!(low < to && high > from)) return;
    const isAlong = Math.abs(uy) <= NO_SLOPE;
    const foot = isAlong ? 0 : px - (py * ux) / uy;
    this.lower(Math.max(from, low), Math.min(to, high), isAlong ? 0 : uy * uy, foot, isAlong ? py * py : 0);
  }

  /** A piece from there on; nothing where the one before is the same, in place of it where that is of no length. */
  #write(from: number, bend: number, foot: number, rest: number): void {
    if (this.#written > 0 && this.#froms[this.#written - 1] >= from) this.#written--;
    const last = this.#written - 1;
    if (last >= 0 && this.#bends[last] === bend && this.#feet[last] === foot && this.#rests[last] === rest) return;
    const at = this.#written++;
    this.#froms[at] = at > 0 && this.#froms[at - 1] > from ? this.#froms[at - 1] : from;
    this.#bends[at] = bend;
    this.#feet[at] = foot;
    this.#rests[at] = rest;
  }
}

/** The root of two that lies between 0 and a length, whatever rounding made of it. */
function within(first: number, second: number, length: number): number {
  const root = first >= 0 && first <= length ? first : second;
  return Math.min(Math.max(root, 0), length) || 0;
}
