import type { Assessment, AssessmentRow, Pair } from '../assess';

/** What an assessment says of one section, to be looked up by name. */
export interface OnSection {
  readonly rows: ReadonlyMap<string, AssessmentRow>;
  /** By the first recording of the pair, then by the second. */
  readonly pairs: ReadonlyMap<string, ReadonlyMap<string, Pair>>;
}

/** The rows and pairs of an assessment on one section, or on the whole route. */
export function onSection(assessment: Assessment, section: string | null): OnSection {
  const rows = new Map<string, AssessmentRow>();
  for (const row of assessment.rows) if (row.section === section) rows.set(row.recording, row);
  const pairs = new Map<string, Map<string, Pair>>();
  for (const pair of assessment.pairs) {
    if (pair.section !== section) continue;
    const mine = pairs.get(pair.first);
    if (mine === undefined) pairs.set(pair.first, new Map([[pair.second, pair]]));
    else mine.set(pair.second, pair);
  }
  return { rows, pairs };
}
