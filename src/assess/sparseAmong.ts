import type { AssessedRecording, AssessmentRow } from './Assessment';
import { sparseGain } from './sparseGain';

/** Fixes so many times as far apart as the other's are sparse. */
const SPARSE = 2;

export const SPARSE_RULE =
  'Straight lines between sparse fixes average errors out. By what they take off a mean distance, for errors that last as long as those of the one with more fixes, the one with fewer must lie closer on top of the floor, and for sure.';

/**
 * By what share of its mean distance the sparser of two recordings looks closer for its straight lines alone, beyond what the
 * other gains by its own: positive the first, negative the second. How long errors last is known of the one with more fixes.
 */
export function sparseAmong(
  recordings: readonly AssessedRecording[],
  rowsOf: ReadonlyMap<string, readonly Pick<AssessmentRow, 'section' | 'correlationLength'>[]>,
): (first: string, second: string) => number {
  const known = new Map(
    recordings.map(({ name, fixSpacing }) => {
      const memory = rowsOf.get(name)?.find(({ section }) => section === null)?.correlationLength ?? Infinity;
      return [name, { spacing: fixSpacing?.median ?? 0, memory }];
    }),
  );
  return (first, second) => {
    const [a, b] = [known.get(first)!, known.get(second)!];
    if (Math.max(a.spacing, b.spacing) < SPARSE * Math.min(a.spacing, b.spacing)) return 0;
    const { memory } = a.spacing < b.spacing ? a : b;
    return sparseGain(a.spacing, memory) - sparseGain(b.spacing, memory);
  };
}
