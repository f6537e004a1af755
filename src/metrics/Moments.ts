/**
 * Masses along a line, and the moments of any of them that follow each other, about any place.
 *
 * A binary tree in which each node has the moments of its masses about a place among them: far from where it is asked nothing
 * cancels, as it would in running sums over the whole line.
 */
export class Moments {
  /** The last answer: the sums of the masses, of each times how far it is from the place, and times the square of that. */
  readonly sums = new Float64Array(3);

  readonly #leaves: number;
  readonly #centre: Float64Array;
  readonly #mass: Float64Array;
  readonly #first: Float64Array;
  readonly #second: Float64Array;

  /** Of masses at places in order. */
  constructor(places: ArrayLike<number>, masses: ArrayLike<number>) {
    const count = places.length;
    this.#leaves = 2 ** Math.ceil(Math.log2(Math.max(1, count)));
    const nodes = 2 * this.#leaves;
    [this.#centre, this.#mass] = [new Float64Array(nodes), new Float64Array(nodes)];
    [this.#first, this.#second] = [new Float64Array(nodes), new Float64Array(nodes)];
    for (let i = 0; i < this.#leaves; i++) {
      this.#centre[this.#leaves + i] = count === 0 ? 0 : places[Math.min(i, count - 1)];
      this.#mass[this.#leaves + i] = i < count ? masses[i] : 0;
    }
    for (let node = this.#leaves - 1; node >= 1; node--) {
      const centre = this.#centre[2 * node + 1];
      this.#centre[node] = centre;
      this.sums.fill(0);
      this.#add(2 * node, centre);
      this.#add(2 * node + 1, centre);
      [this.#mass[node], this.#first[node], this.#second[node]] = this.sums;
    }
  }

  /** Leaves in `sums` the moments about a place of the masses from index `from` up to `end`, itself excluded. */
  about(place: number, from: number, end: number): void {
    this.sums.fill(0);
    for (let [low, high] = [from + this.#leaves, end + this.#leaves]; low < high; low >>= 1, high >>= 1) {
      if ((low & 1) === 1) this.#add(low++, place);
      if ((high & 1) === 1) this.#add(--high, place);
    }
  }

  #add(node: number, place: number): void {
    const away = this.#centre[node] - place;
    const mass = this.#mass[node];
    const first = this.#first[node];
    this.sums[0] += mass;
    this.sums[1] += first + away * mass;
    this.sums[2] += this.#second[node] + away * (2 * first + away * mass);
  }
}
