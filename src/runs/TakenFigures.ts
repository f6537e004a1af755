import type { AssessmentRow, Pair } from '../assess';
import type { AssessedFigures } from './AssessedFigures';

/** What `combine` reads of an assessment, as it stands there; figures are put back into this form first. */
export interface TakenFigures extends Omit<AssessedFigures, 'rows' | 'pairs'> {
  readonly rows: readonly FiguresRow[];
  readonly pairs: readonly FiguresPair[];
}

export interface FiguresRow
  extends Pick<
    AssessmentRow,
    | 'recording'
    | 'section'
    | 'meanAbsolute'
    | 'bias'
    | 'insideCorridor'
    | 'correctSide'
    | 'insideAllowed'
    | 'undecidedAllowed'
    | 'coverage'
    | 'referenceLength'
    | 'offRoute'
    | 'halfWidth'
    | 'sideLimit'
    | 'foretold'
  > {}

export interface FiguresPair
  extends Pick<
    Pair,
    'first' | 'second' | 'section' | 'difference' | 'floor' | 'sparseGain' | 'commonShare' | 'foretold'
  > {}
