import { runsJoined, studentInterval } from '../statistics';
import { mean } from './mean';

/** A figure of one receiver by run, and the variance that each run foretells of its own. */
export interface FigureByRun {
  readonly values: readonly number[];
  /** As many as `values`; empty where a run foretells nothing. */
  readonly foretold: readonly number[];
}

/** A figure over runs: between the runs and from within them, where both can be had. */
export interface JoinedFigure {
  readonly mean: number;
  readonly variance: number;
  readonly degrees: number;
}

/** Each receiver's figure over the runs; null with a single run. */
export function joinedFigures(figures: readonly FigureByRun[]): (JoinedFigure | null)[] {
  const excess = figures.map(({ values, foretold }) => {
    const spread = studentInterval(values)?.sd;
    const within = mean(foretold);
    return spread != null && within !== null && within > 0 ? spread ** 2 / within : null;
  });
  return figures.map(({ values, foretold }, i): JoinedFigure | null => {
    const spread = studentInterval(values);
    if (!spread || spread.sd === null) return null;
    const own = excess[i];
    const others = excess.filter((one, k): one is number => k !== i && one !== null);
    // runs too short to foretell anything: what they say between them is all there is
    if (own === null)
      return { mean: spread.mean, variance: spread.sd ** 2 / values.length, degrees: values.length - 1 };
    return { mean: spread.mean, ...runsJoined(values.length, mean(foretold)!, [own, ...others]) };
  });
}
