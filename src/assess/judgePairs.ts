import { correctedPairs, detectableRatio } from '../statistics';
import type { Pair, Verdict, VerdictLimit } from './Assessment';
import { detectableMetres } from './detectableMetres';
import { wideningOf } from './rowChances';
import { undecided } from './undecided';
import { verdictOf } from './verdictOf';

/** What a verdict on two rests on. */
export type ComparedFigures = Pick<
  Pair,
  | 'first'
  | 'second'
  | 'section'
  | 'difference'
  | 'interval95'
  | 'interval90'
  | 'commonShare'
  | 'floor'
  | 'pValue'
  | 'effectiveSamples'
  | 'foretold'
> &
  Partial<Pick<Pair, 'sparseGain'>>;

type Judged = Pick<Pair, 'detectable' | 'adjustedPValue' | 'verdict' | 'closer' | 'limits'>;

/** How the pairs that are looked at together are judged. */
export interface PairJudgement<Compared extends ComparedFigures> {
  /** Metres within which a difference counts as none. */
  readonly equivalence: number;
  /** Why a pair may be called neither closer nor equivalent whatever its figures; undefined if it may. */
  readonly cap: (comparison: Compared, candidate: Verdict) => VerdictLimit | undefined;
}

/** Verdicts on pairs that are looked at together: one section of one run. */
export function judgePairs<Compared extends ComparedFigures>(
  comparisons: readonly Compared[],
  { equivalence, cap }: PairJudgement<Compared>,
): (Compared & Judged)[] {
  const names = [...new Set(comparisons.flatMap(({ first, second }) => [first, second]))];
  const numbers = new Map(names.map((name, i) => [name, i]));
  const corrected = correctedPairs(
    comparisons.map(({ first, second, pValue }) => ({
      first: numbers.get(first)!,
      second: numbers.get(second)!,
      pValue,
    })),
    names.length,
  );
  return comparisons.map((comparison, i) => {
    const { difference, interval95, interval90, floor, sparseGain, commonShare, foretold, effectiveSamples } =
      comparison;
    const { adjusted: adjustedPValue, level } = corrected[i];
    const { verdict, limits } =
      difference === null
        ? undecided('nothing-in-common', 'The two have no stretch in common.')
        : interval95 === null
          ? undecided('too-short', 'The stretch they share is too short for an interval.')
          : verdictOf(
              { difference, interval95, interval90: interval90!, floor, sparseGain, commonShare, adjustedPValue },
              equivalence,
              (candidate) => cap(comparison, candidate),
            );
    const widening = wideningOf.distance(effectiveSamples ?? 1);
    return {
      ...comparison,
      detectable:
        foretold &&
        detectableMetres(
          foretold,
          floor,
          detectableRatio({ ...foretold, scatter: foretold.variance, widening, level }),
        ),
      adjustedPValue,
      verdict,
      closer: verdict !== 'closer' ? null : difference! < 0 ? comparison.first : comparison.second,
      limits,
    };
  });
}
