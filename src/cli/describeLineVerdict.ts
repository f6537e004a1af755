import type { AssessmentRow } from '../assess';

/** "strayed right", "kept", "kept, left" where the side is sure though it kept to the line, "undecided". */
export function describeLineVerdict({
  lineVerdict,
  strayedTo,
  sureSide,
}: Pick<AssessmentRow, 'lineVerdict' | 'strayedTo' | 'sureSide'>): string {
  if (strayedTo !== null) return `${lineVerdict} ${strayedTo}`;
  return sureSide === null ? lineVerdict : `${lineVerdict}, ${sureSide}`;
}
