import type { OptionKeys } from '../model';
import type { TimedAssessment } from '../truth';

/** Options of `combine`. */
export interface CombineOptions {
  /** The receiver that alone the others are compared with. @defaultValue as the first assessment had it */
  readonly baseline?: string;
  /** What `judgeByTime` found of the same runs: put beside it as `combineByTime` does. @defaultValue none */
  readonly byTime?: readonly TimedAssessment[];
}

/** The keys of {@link CombineOptions}. */
export const combineKeys: OptionKeys<CombineOptions> = { baseline: true, byTime: true };
