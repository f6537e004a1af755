import { coveredEnough } from './coveredEnough';

/** What stands below a table: how to read its words and marks. */
export function tableLegend(rows: readonly Parameters<typeof coveredEnough>[0][]): string[] {
  return [
    '',
    'line: strayed beyond the corridor, or kept within it, on average and for sure; without a corridor, the line’s own',
    'uncertainty counts. A side named there is sure too. In an interval of a side that spans the line, right is positive.',
    ...(rows.every(coveredEnough) ? [] : ['(…): less than half of the stretch was covered.']),
  ];
}
