import { type Interval, meanLimits, shareLimits, studentQuantile } from '../statistics';
import type { Foretold } from './Assessment';
import type { BinRange } from './RouteGrid';
import type { RunChances } from './RunChances';
import type { ChanceMean } from './RunScatter';

/** Fewer effective samples say nothing of how far a mean may be off. */
export const LEAST_SAMPLES = 3;

export const INTERVAL_RULE = `95 % intervals come from the slow waves of the offsets along a stretch, of all recordings of the run together: how long errors last is read off all of them, how much each scatters mostly off its own. Student’s t; distances and their differences on the scale of logarithms; widened where the stretch is short beside what errors last. The whole route is the sum of its sections, each about its own mean. With fewer than ${LEAST_SAMPLES} effective samples there is none. They hold for this run only.`;

/**
 * Half widths are a little wider where few samples say how long errors last: found by simulation, see bench/verdicts.ts.
 * Distances are judged by their ratio, offsets by their difference.
 */
export const wideningOf = {
  distance: (samples: number) => 1 + 1.5 / samples + 8 / samples ** 2,
  offset: (samples: number) => 1 + 0.5 / samples + 5 / samples ** 2,
};

/** A row's intervals, null where they can't be had, and what they rest on. */
export interface RowChances {
  readonly interval95: Interval | null;
  readonly biasInterval95: Interval | null;
  readonly insideCorridorInterval95: Interval | null;
  readonly correctSideInterval95: Interval | null;
  readonly insideAllowedInterval95: Interval | null;
  readonly effectiveSamples: number | null;
  readonly foretold: Foretold | null;
}

/**
 * How sure the means of a recording on a stretch are.
 *
 * @param insideAllowed - The share of its line inside the allowed areas, which is no mean over bins.
 */
export function rowChances(
  chances: RunChances,
  name: string,
  range: BinRange,
  insideAllowed: number | null = null,
): RowChances {
  const distance = chances.mean('distance', name, range);
  const offset = chances.mean('offset', name, range);
  const enough = distance !== undefined && distance.samples >= LEAST_SAMPLES;
  const biasKnown = offset !== undefined && offset.samples >= LEAST_SAMPLES;
  const shareOf = (kind: 'inside' | 'correct' | 'allowed') => {
    const share = chances.mean(kind, name, range);
    return share && enough ? { share: share.mean, samples: samplesOf(share, distance.samples) } : undefined;
  };
  const [inside, correct, allowed] = [shareOf('inside'), shareOf('correct'), shareOf('allowed')];
  const quantile = enough ? studentQuantile(0.95, distance.degrees) : Number.NaN;
  const biasError = biasKnown ? Math.sqrt(offset.variance) : Number.NaN;
  const biasHalf = biasKnown
    ? studentQuantile(0.95, offset.degrees) * wideningOf.offset(offset.samples) * biasError
    : Number.NaN;
  return {
    interval95: enough
      ? meanLimits(distance.mean, distance.variance, quantile * wideningOf.distance(distance.samples))
      : null,
    biasInterval95: biasKnown ? [offset.mean - biasHalf, offset.mean + biasHalf] : null,
    insideCorridorInterval95: inside ? shareLimits(inside.share, inside.samples, quantile) : null,
    correctSideInterval95: correct ? shareLimits(correct.share, correct.samples, quantile) : null,
    insideAllowedInterval95:
      allowed && insideAllowed !== null ? shareLimits(insideAllowed, allowed.samples, quantile) : null,
    effectiveSamples: distance?.samples ?? null,
    foretold: enough
      ? {
          meanAbsolute: Math.sqrt(distance.variance),
          bias: biasKnown ? biasError : null,
          insideSamples: inside?.samples ?? null,
          correctSamples: correct?.samples ?? null,
          allowedSamples: allowed?.samples ?? null,
          degrees: distance.degrees,
        }
      : null,
  };
}

/** As many independent yes or no as tell as much of a share; where all say the same, the distances tell how many there are. */
function samplesOf({ mean, variance }: ChanceMean, ofDistance: number): number {
  if (!(variance > 0)) return ofDistance;
  return Math.max(1, Math.min((mean * (1 - mean)) / variance, 2 * ofDistance));
}
