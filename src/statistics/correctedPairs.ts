import { partitions } from './partitions';
import { shafferFactors } from './shafferFactors';

/** Two of the things compared, by index, and the probability that they are alike; null where it isn't known. */
export interface ComparedPair {
  readonly first: number;
  readonly second: number;
  readonly pValue: number | null;
}

/** What a pair's p-value comes to among all that are looked at together. */
export interface CorrectedPair {
  /** With a limit of 0.05 on it, no pair that is alike is called different more than 5 % of the time. */
  readonly adjusted: number | null;
  /** The p-value of its own up to which the pair would be called different, the others being as they are. */
  readonly level: number;
}

/** Beyond this many things the partitions are too many (21 147 of nine): Shaffer's steps take over. */
const MOST_CLOSED = 7;
const LIMIT = 0.05;

/**
 * p-values of pairs made fit for being looked at together.
 *
 * "These two are alike" is no lone claim, for once one pair differs, not all others can be alike. Every way
 * of sorting the things into groups that are alike is a claim that could be true. A pair is called different only when each
 * that puts it into one group is refuted: by the smallest p-value within groups, times how many pairs there are within them.
 * More than seven things: Shaffer's steps, each p-value times the most pairs that can still be alike; Holm's steps where not
 * every two are compared. Either finds whatever Holm's steps find; where all are compared with one baseline only, the claims are
 * tied by nothing and both are Holm's.
 *
 * Whatever depends on whatever, no more than 5 % of such families hold a false difference.
 *
 * @param count - how many things; pairs without a p-value stand in no claim
 *
 * @see Bergmann and Hommel (1988); Shaffer, Modified sequentially rejective multiple test procedures, JASA 81 (1986) 826;
 * García and Herrera, JMLR 9 (2008) 2677; Holm, Scand. J. Statist. 6 (1979) 65
 */
export function correctedPairs(pairs: readonly ComparedPair[], count: number): CorrectedPair[] {
  const known = pairs.flatMap(({ first, second, pValue }, i) =>
    pValue === null ? [] : [{ first, second, pValue, i }],
  );
  const corrected = pairs.map(() => ({ adjusted: null as number | null, level: LIMIT }));
  if (count <= MOST_CLOSED) {
    for (const { pValue, i } of known) corrected[i].adjusted = pValue;
    for (const groups of partitions(count)) {
      const joined = known.filter(({ first, second }) => groups[first] === groups[second]);
      let [lowest, next] = [1, 1];
      for (const { pValue } of joined) {
        next = Math.min(next, Math.max(lowest, pValue));
        lowest = Math.min(lowest, pValue);
      }
      const least = Math.min(1, joined.length * lowest);
      for (const { pValue, i } of joined) {
        const others = pValue === lowest ? next : lowest;
        const one = corrected[i];
        one.adjusted = Math.max(one.adjusted!, least);
        if (joined.length * others > LIMIT) one.level = Math.min(one.level, LIMIT / joined.length);
      }
    }
    return corrected;
  }
  const everyTwo = known.length === (count * (count - 1)) / 2;
  const factors = everyTwo ? shafferFactors(count) : known.map((_, step) => known.length - step);
  const sorted = [...known].sort((a, b) => a.pValue - b.pValue);
  const isOver = (rank: number, step: number) => factors[rank] * sorted[step].pValue > LIMIT;
  const first = sorted.findIndex((_, rank) => isOver(rank, rank));
  // without a pair those after it come one rank earlier: the first of these from a rank on that is over the limit
  const passed = new Int32Array(sorted.length).fill(sorted.length - 1);
  for (let rank = sorted.length - 2; rank >= 0; rank--) passed[rank] = isOver(rank, rank + 1) ? rank : passed[rank + 1];
  let least = 0;
  sorted.forEach(({ pValue, i }, step) => {
    least = Math.max(least, Math.min(1, factors[step] * pValue));
    corrected[i].adjusted = least;
    corrected[i].level = LIMIT / factors[first >= 0 && first < step ? first : passed[step]];
  });
  return corrected;
}
