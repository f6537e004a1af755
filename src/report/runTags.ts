import type { ReportModel } from './reportModel';

/** Longest name that can stand on a line of a picture. */
const SHORT = 7;

/** What each run is called on its lines: its own name where all are short, else a letter with its number. */
export function runTags({ runs }: Pick<ReportModel, 'runs'>): ReadonlyMap<string | null, string> {
  const short = runs.every((run) => run !== null && run.length <= SHORT);
  return new Map(runs.map((run, i) => [run, short && run !== null ? run : `r${i + 1}`]));
}
