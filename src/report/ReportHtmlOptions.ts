import type { OptionKeys, ReceiverLooks } from '../model';
import type { TestSummary } from '../runs';
import type { TimedAssessment } from '../truth';
import { type SurroundingOptions, surroundingKeys } from './SurroundingOptions';

/** Options of `reportHtml`. */
export interface ReportHtmlOptions extends SurroundingOptions {
  /** Heading of the report. @defaultValue the route's name */
  readonly title?: string;
  /** What several runs say together. @defaultValue what `combine` finds, where the recordings come from more than one run */
  readonly summary?: TestSummary;
  /** What `judgeByTime` found of the same runs: a part of its own shows it. @defaultValue none */
  readonly byTime?: TimedAssessment | readonly TimedAssessment[];
  /** What was to be in it and isn't, each as `NAME: why`: files that could not be read. @defaultValue none */
  readonly leftOut?: readonly string[];
  /** How receivers are drawn. @defaultValue by their names: the same receiver alike in every report */
  readonly looks?: ReceiverLooks;
  /**
   * When each run was made, by its name, in your own words: an assessment tells no absolute times, as they say when somebody
   * was where. Runs that are not there are passed over. @defaultValue none
   */
  readonly dates?: { readonly [run: string]: string };
}

/** The keys of {@link ReportHtmlOptions}. */
export const reportHtmlKeys: OptionKeys<ReportHtmlOptions> = {
  title: true,
  summary: true,
  byTime: true,
  looks: true,
  dates: true,
  leftOut: true,
  ...surroundingKeys,
};
