import type { ReportModel } from './reportModel';

/** The receiver that alone the others were compared with; null where every two were. */
export function baselineOf({ summary, assessments }: ReportModel): string | null {
  return summary ? summary.baseline : assessments[0].method.options.baseline;
}
