import type {
  AssessedRecording,
  AssessedRoute,
  AssessedSection,
  AssessmentMethod,
  AssessmentRow,
  AssessmentWarning,
  DrawnLine,
  Pair,
} from '../assess';

/**
 * What `combine` needs of an assessment and nothing else, as `runFigures` takes it out: plain JSON, described by
 * `datumline/schemas/runFigures.json`. Every field means what it means in an `Assessment`; no position of a recording stands
 * in it.
 */
export interface AssessedFigures {
  /** Version of this document's shape. */
  readonly schema: 1;
  readonly route: FiguresRoute;
  readonly recordings: readonly FiguresRecording[];
  /** One for each recording that was placed, and each section, then the whole route. */
  readonly rows: readonly FiguresRow[];
  /** Every two recordings of one run, by section, then the whole route. */
  readonly pairs: readonly FiguresPair[];
  readonly method: FiguresMethod;
  /** Those that a summary passes on: about the clock of a recording, and about one of another pace. */
  readonly warnings: readonly FiguresWarning[];
}

/** The route, by which figures of one are told from those of another. */
export interface FiguresRoute extends Pick<AssessedRoute, 'name' | 'length'> {
  readonly sections: readonly FiguresSection[];
  readonly line: FiguresLine;
}

export interface FiguresSection extends Pick<AssessedSection, 'name' | 'from' | 'to' | 'halfWidth' | 'lap'> {}

/** Of the line drawn in the assessment its ends and up to 99 places between: enough to tell it from that of another route. */
export interface FiguresLine extends Pick<DrawnLine, 'lon' | 'lat'> {}

export interface FiguresRecording
  extends Pick<AssessedRecording, 'name' | 'receiver' | 'placement' | 'run' | 'leftOut' | 'fixes' | 'hash'> {}

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
  extends Pick<Pair, 'first' | 'second' | 'section' | 'difference' | 'floor' | 'commonShare' | 'foretold'> {}

export interface FiguresMethod
  extends Pick<AssessmentMethod, 'library' | 'version' | 'hash' | 'sentences' | 'cautions'> {
  readonly options: FiguresOptions;
  /** The route's, by whose hash a summary names it. @minItems 1 */
  readonly inputs: AssessmentMethod['inputs'];
}

export interface FiguresOptions extends Pick<AssessmentMethod['options'], 'leverArm' | 'equivalence' | 'baseline'> {}

export interface FiguresWarning extends Pick<AssessmentWarning, 'reason' | 'recording' | 'message'> {}
