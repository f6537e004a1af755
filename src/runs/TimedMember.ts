import type { TimedAssessment } from '../truth';
import type { Carried } from './summaryRuns';

/** A recording that was judged by the clock, and all that was judged with it. */
export interface TimedMember extends Carried {
  readonly timed: TimedAssessment;
}
