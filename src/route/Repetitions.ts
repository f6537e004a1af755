import type { RepeatedStretch } from './RepeatedStretch';

/** Times `maxDistance`: about as long are two lines that cross at 30° within reach of each other. Shorter is a crossing. */
export const SHORTEST = 4;

/** Metres, above the rounding of along-track. */
const CLEAR = 1e-6;

/** A repetition while vertices still add to it. */
interface Chain {
  readonly direction: 'same' | 'opposite';
  /** Along-track where it begins and ends so far; of the second passage in the travel of the first. */
  readonly first: { from: number; to: number };
  readonly second: { from: number; to: number };
  /** Vertex that added last, and how far away the second passage was there. */
  vertex: number;
  distance: number;
}

/** What a place of a route meets further along it. */
export interface Meeting {
  readonly direction: 'same' | 'opposite';
  /** Metres along-track of the other passage. */
  readonly at: number;
  /** Metres to it. */
  readonly distance: number;
}

/**
 * Puts together to stretches what the vertices of a route meet, one vertex after the other.
 *
 * Chains are kept in the order of their second passages, so that the meetings of a vertex, told in that order too, find
 * theirs in one go along both.
 */
export class Repetitions {
  readonly repeats: RepeatedStretch[] = [];
  readonly #maxDistance: number;
  /** Metres of the longest edge. */
  readonly #longest: number;
  #chains = { same: [] as Chain[], opposite: [] as Chain[] };

  constructor(maxDistance: number, longest: number) {
    this.#maxDistance = maxDistance;
    this.#longest = longest;
  }

  /** Adds a vertex, `here` metres along, with what it meets in the order along the route. */
  add(vertex: number, here: number, meetings: readonly Meeting[]): void {
    const reach = this.#longest + 2 * this.#maxDistance;
    const at = { same: 0, opposite: 0 };
    for (const { direction, at: there, distance } of meetings) {
      const chains = this.#chains[direction];
      const expected = ({ first, second }: Chain) =>
        second.to + (direction === 'same' ? here - first.to : first.to - here);
      while (at[direction] < chains.length && expected(chains[at[direction]]) < there - reach) at[direction]++;
      const chain = chains[at[direction]];
      if (chain === undefined || expected(chain) > there + reach || this.#turnsBack(chain, there)) {
        const [first, second] = [
          { from: here, to: here },
          { from: there, to: there },
        ];
        chains.splice(at[direction], 0, { direction, first, second, vertex, distance });
      } else if (chain.vertex !== vertex || distance < chain.distance) {
        if (chain.first.from === here) chain.second.from = there;
        chain.first.to = here;
        chain.second.to = there;
        chain.vertex = vertex;
        chain.distance = distance;
      }
    }
    this.#chains = { same: this.#goOn(vertex, 'same'), opposite: this.#goOn(vertex, 'opposite') };
  }

  /** Ends all that is open. */
  end(): void {
    for (const chain of [...this.#chains.same, ...this.#chains.opposite]) this.#close(chain);
    this.repeats.sort((a, b) => a.first.from - b.first.from || a.second.from - b.second.from);
  }

  /** The chains that a vertex added to, the others closed. */
  #goOn(vertex: number, direction: 'same' | 'opposite'): Chain[] {
    const open: Chain[] = [];
    for (const chain of this.#chains[direction]) {
      // A lap ends where the next begins; the same vertex starts the pair of the next two laps.
      const caughtUp = direction === 'same' && chain.first.to >= chain.second.from - CLEAR;
      if (caughtUp || chain.vertex !== vertex) this.#close(chain);
      if (chain.vertex !== vertex) continue;
      const { first, second } = chain;
      const again = ({ to }: Chain['first']) => ({ from: to, to });
      open.push(caughtUp ? { ...chain, first: again(first), second: again(second) } : chain);
    }
    return open;
  }

  /** Whether the second passage would go the other way than the chain's. */
  #turnsBack({ direction, second }: Chain, there: number): boolean {
    const on = direction === 'same' ? there - second.from : second.from - there;
    return on < -this.#longest - CLEAR;
  }

  #close({ direction, first, second }: Chain): void {
    const { from, to } = first;
    if (to - from < SHORTEST * this.#maxDistance) return;
    if (direction === 'same') {
      this.repeats.push({ first, second, direction });
      return;
    }
    const { from: end, to: begin } = second;
    // Out and back on the same line: the vertex at the turn belongs to both.
    const meeting = begin - to <= 2 * this.#longest + CLEAR ? (begin + to) / 2 : undefined;
    this.repeats.push({ first: { from, to: meeting ?? to }, second: { from: meeting ?? begin, to: end }, direction });
  }
}
