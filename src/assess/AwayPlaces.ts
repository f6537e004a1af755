import { bisector } from 'd3-array';
import type { OffRouteEpisode } from './Assessment';

/** Metres that the places at which recordings left the route and came back may differ: errors along it, of both. */
const SLACK = 30;

/** From where to where a recording was away from the route; one that goes out and back may have no length there. */
type Away = Pick<OffRouteEpisode, 'from' | 'to'>;

/** Where one recording was away from the route, to be asked who else was away there. */
export class AwayPlaces {
  /** By where they begin, and the furthest that any so far ends. */
  readonly #begins: readonly Stretch[];
  /** By where they end, from the last on, and the nearest that any so far begins. */
  readonly #ends: readonly Stretch[];

  constructor(episodes: readonly Away[]) {
    const stretches = episodes.map(({ from, to }) => ({ low: Math.min(from, to), high: Math.max(from, to) }));
    let high = -Infinity;
    this.#begins = [...stretches]
      .sort((a, b) => a.low - b.low)
      .map((one) => ({ low: one.low, high: (high = Math.max(high, one.high)) }));
    let low = Infinity;
    this.#ends = [...stretches]
      .sort((a, b) => b.high - a.high)
      .map((one) => ({ low: (low = Math.min(low, one.low)), high: one.high }));
  }

  /** From the first to the last of those away at the same place; undefined where there are none. */
  together({ from, to }: Away): { readonly from: number; readonly to: number } | undefined {
    const [low, high] = [Math.min(from, to), Math.max(from, to)];
    const begun = begins.right(this.#begins, high);
    const furthest = this.#begins[begun - 1]?.high ?? -Infinity;
    if (!(low - furthest <= SLACK)) return undefined;
    return { from: this.#ends[ends.right(this.#ends, low) - 1].low, to: furthest };
  }
}

interface Stretch {
  readonly low: number;
  readonly high: number;
}

const begins = bisector((one: Stretch, high: number) => one.low - high - SLACK);
const ends = bisector((one: Stretch, low: number) => low - one.high - SLACK);
