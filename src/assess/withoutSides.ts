import type { AssessmentRow } from './Assessment';

/** A row of a recording that runs against the route: the sides of a line drawn backwards are not judged. */
export function withoutSides<Row extends Omit<AssessmentRow, 'verdictLimit'>>(row: Row): Row {
  return {
    ...row,
    bias: null,
    biasInterval95: null,
    biasSide: null,
    biasInWords: null,
    medianOffset: null,
    correctSide: null,
    correctSideInterval95: null,
    undecidedSide: null,
    strayedTo: null,
    sureSide: null,
  };
}
