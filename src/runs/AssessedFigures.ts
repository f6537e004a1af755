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
import type { Count, Size } from '../model';

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
  readonly rows: FiguresRows;
  /** Every two recordings of one run, by section, then the whole route. */
  readonly pairs: FiguresPairs;
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

/** Rows by their members: of each a list, as long as there are rows. Every member means what it means in an assessment's row. */
export interface FiguresRows {
  /** Which of `recordings`, counted from 0. */
  readonly recording: readonly Count[];
  /** Which of `route.sections`, counted from 0; null is the whole route. */
  readonly section: readonly (Count | null)[];
  readonly meanAbsolute: readonly AssessmentRow['meanAbsolute'][];
  readonly bias: readonly AssessmentRow['bias'][];
  readonly insideCorridor: readonly AssessmentRow['insideCorridor'][];
  readonly insideAllowed: readonly AssessmentRow['insideAllowed'][];
  readonly undecidedAllowed: readonly AssessmentRow['undecidedAllowed'][];
  readonly correctSide: readonly AssessmentRow['correctSide'][];
  readonly coverage: readonly AssessmentRow['coverage'][];
  readonly referenceLength: readonly AssessmentRow['referenceLength'][];
  readonly offRoute: readonly AssessmentRow['offRoute'][];
  readonly halfWidth: readonly AssessmentRow['halfWidth'][];
  readonly sideLimit: readonly AssessmentRow['sideLimit'][];
  readonly foretold: FiguresForetold;
}

/** What rows foretell, by its members; all of them null for a row that foretells nothing. */
export interface FiguresForetold {
  readonly meanAbsolute: readonly (Size | null)[];
  readonly bias: readonly (Size | null)[];
  readonly insideSamples: readonly (Size | null)[];
  readonly correctSamples: readonly (Size | null)[];
  readonly allowedSamples: readonly (Size | null)[];
  readonly degrees: readonly (Size | null)[];
}

/** Pairs by their members, as {@link FiguresRows} has rows. */
export interface FiguresPairs {
  /** Which of `recordings`, counted from 0. */
  readonly first: readonly Count[];
  readonly second: readonly Count[];
  /** Which of `route.sections`, counted from 0; null is the whole route. */
  readonly section: readonly (Count | null)[];
  readonly difference: readonly Pair['difference'][];
  readonly floor: readonly Pair['floor'][];
  readonly sparseGain: readonly Pair['sparseGain'][];
  readonly commonShare: readonly Pair['commonShare'][];
  readonly foretold: FiguresForetoldPairs;
}

/** What pairs foretell, by its members; all of them null for a pair that foretells nothing. */
export interface FiguresForetoldPairs {
  readonly first: readonly (Size | null)[];
  readonly second: readonly (Size | null)[];
  readonly firstVariance: readonly (Size | null)[];
  readonly secondVariance: readonly (Size | null)[];
  readonly variance: readonly (Size | null)[];
  readonly degrees: readonly (Size | null)[];
}

export interface FiguresMethod
  extends Pick<AssessmentMethod, 'library' | 'version' | 'hash' | 'sentences' | 'cautions'> {
  readonly options: FiguresOptions;
  /** The route's, by whose hash a summary names it. @minItems 1 */
  readonly inputs: AssessmentMethod['inputs'];
}

export interface FiguresOptions extends Pick<AssessmentMethod['options'], 'leverArm' | 'equivalence' | 'baseline'> {}

export interface FiguresWarning extends Pick<AssessmentWarning, 'reason' | 'recording' | 'message'> {}
