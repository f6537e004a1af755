import type { AssessmentMethod, Pair, Verdict } from '../assess';
import type { Count, Name, Share, Size } from '../model';
import type { Interval } from '../statistics';

/**
 * What `judgeByTime` found: plain JSON that survives a round trip, described by `datumline/schemas/timedAssessment.json`.
 *
 * Lengths are metres, times seconds, shares 0–1; along ahead positive, across right positive, up positive. What the data
 * cannot say is null, never NaN. A `recording` is named by its unique name, a `section` by its name, null for the whole.
 */
export interface TimedAssessment {
  /** Version of this document's shape. */
  readonly schema: 1;
  readonly truth: TimedTruth;
  /** In the order given, those left out included. */
  readonly recordings: readonly TimedRecording[];
  /** One for each recording that was judged, and each section, then the whole. */
  readonly rows: readonly TimedRow[];
  /** Every two recordings of one run, by section, then the whole. */
  readonly pairs: readonly TimedPair[];
  readonly method: TimedMethod;
  readonly warnings: readonly TimedWarning[];
}

/** The truth as it was judged against. */
export interface TimedTruth {
  readonly name: string;
  /** Seconds from its first to its last fix. No time of day stands in this document. */
  readonly duration: Size;
  /** Fixes used, and how many of its seconds it knows the place in. */
  readonly fixes: Count;
  readonly seconds: Count;
  /** Largest stated uncertainty (95 %), metres; null where any of it is unstated. */
  readonly doubt95: Size | null;
  /** By second from the whole one that its first fix is in: 1 where the place is known, else 0. */
  readonly known: readonly Count[];
  /** By second, metres along the route; null where it is not on it. All null without a route. */
  readonly alongTrack: readonly (number | null)[];
  /** Sections of the route, and the seconds, counted as in `known`, in which the truth was in each. */
  readonly sections: readonly { readonly name: Name; readonly from: Size; readonly to: Size }[];
}

/** One recording as a whole. */
export interface TimedRecording {
  /** Unique within the assessment. */
  readonly name: string;
  readonly receiver: string | null;
  readonly placement: string | null;
  readonly run: string | null;
  /** Why it was not judged; null where it was. */
  readonly leftOut: { readonly reason: TimedLeftOutReason; readonly message: string } | null;
  readonly fixes: Count;
  /** Fixes with a true place at their instant. */
  readonly judged: Count;
  /** Median seconds between its fixes; null with fewer than 2. */
  readonly usualInterval: Size | null;
  /** Seconds from the first true fix to its first fix, 0 where it began earlier; null where it was not judged. */
  readonly timeToFirstFix: Size | null;
  /** By second of the truth, to the millimetre: the mean over the fixes in it; null where there is none, for a split while standing too. */
  readonly horizontal: readonly (number | null)[];
  readonly along: readonly (number | null)[];
  readonly across: readonly (number | null)[];
}

export type TimedLeftOutReason = 'too-few-fixes' | 'no-times' | 'no-overlap' | 'is-the-truth';

/** Figures of one component of the error, each second counting once. */
export interface ErrorFigure {
  /** Mean with its sign: the trueness. Of the horizontal error, its mean size. */
  readonly mean: number;
  /** 95 % interval of `mean`, for this run only; null with fewer than 3 effective samples. */
  readonly interval95: Interval | null;
  /**
   * 95 % intervals of the figures that tell of the spread, for this run only; null with fewer than 3 effective samples. The maximum has
   * none: it is what was found.
   */
  readonly intervals95: {
    readonly sd: Interval;
    readonly rms: Interval;
    readonly p50: Interval;
    readonly p68: Interval;
    readonly p75: Interval;
    readonly p95: Interval;
  } | null;
  /** Degrees of freedom of Student's t in `interval95`, and in `intervals95`. */
  readonly degrees: { readonly mean: Size; readonly spread: Size } | null;
  /** Spread about the mean. */
  readonly sd: Size;
  /** About 0. */
  readonly rms: Size;
  /** Percentiles and maximum of its size. */
  readonly p50: Size;
  readonly p68: Size;
  readonly p75: Size;
  readonly p95: Size;
  readonly max: Size;
  /** Which of these, by their size, are below the truth's own uncertainty: not resolved. Empty where that is not stated. */
  readonly unresolved: readonly ('mean' | 'sd' | 'rms' | 'p50' | 'p68' | 'p75' | 'p95' | 'max')[];
}

/** Figures of the error and its components; null where there is no second with one. */
export interface ErrorFigures {
  readonly horizontal: ErrorFigure | null;
  readonly along: ErrorFigure | null;
  readonly across: ErrorFigure | null;
  readonly up: ErrorFigure | null;
  /** Radii that hold 50 % and 95 % of a normal error of these moments east and north, whatever its shape. */
  readonly cep50: Size | null;
  readonly ce95: Size | null;
  /** 95 % intervals of the radii, for this run only; null with fewer than 3 effective samples. */
  readonly circularIntervals95: { readonly cep50: Interval; readonly ce95: Interval } | null;
}

/** One recording in one section, or the whole. Each second counts once. */
export interface TimedRow extends ErrorFigures {
  readonly recording: string;
  readonly section: string | null;
  /** Seconds in which the truth knows the place; of these, with a horizontal error, and with a split one. */
  readonly seconds: Count;
  readonly judged: Count;
  readonly moving: Count;
  /** Largest uncertainty (95 %) that the truth states here; null where any of it is unstated. */
  readonly doubt95: Size | null;
  /** Mean horizontal error ÷ `doubt95`: below 2 the truth cannot resolve it. */
  readonly resolution: Size | null;
  /** Share of `seconds` that have a fix no older than the recording's usual interval and half a second. */
  readonly availability: Share | null;
  /** The longest time without one, and the second, counted as in `truth.known`, that it began in; null where there is none. */
  readonly longestOutage: { readonly seconds: Count; readonly from: Count } | null;
  /** Seconds that the recording is late, and what is left with that taken out; null where it can't be told. */
  readonly delay: Delay | null;
  /** As many independent samples would tell as much of the mean horizontal error. */
  readonly effectiveSamples: Size | null;
}

/**
 * The shift in time that makes the error along the way least: what is late (positive) shows where the body was so many
 * seconds ago. Reported, never taken out of any other figure. A receiver that lies a constant distance ahead looks early by
 * that distance over the speed: nothing but changes of pace tells the two apart.
 */
export interface Delay {
  readonly seconds: number;
  /** For this run only; null with fewer than 3 effective samples. */
  readonly interval95: Interval | null;
  /** Degrees of freedom of Student's t in it. */
  readonly degrees: Size;
  /** The figures once more, with the delay of the whole recording taken out. */
  readonly removed: ErrorFigures & { readonly seconds: number };
}

/**
 * Two recordings of one run, on the times both have: mean horizontal errors. Judged in bins of as many whole seconds as the
 * slower of the run's receivers takes for a fix.
 */
export interface TimedPair
  extends Pick<
    Pair,
    | 'first'
    | 'second'
    | 'section'
    | 'difference'
    | 'interval95'
    | 'interval90'
    | 'verdict'
    | 'closer'
    | 'commonShare'
    | 'floor'
    | 'pValue'
    | 'adjustedPValue'
    | 'effectiveSamples'
    | 'detectable'
    | 'foretold'
    | 'limits'
  > {
  readonly verdict: Verdict;
}

/** Everything chosen, so that another can do it again. */
export interface TimedMethod
  extends Pick<AssessmentMethod, 'library' | 'version' | 'hash' | 'inputs' | 'sentences' | 'cautions'> {
  /** The options as used, defaults filled in. */
  readonly options: {
    readonly maxTruthGap: Size;
    readonly truth95: Size | null;
    readonly leverArm: Size;
    readonly equivalence: Size;
    readonly baseline: string | null;
  };
}

/** Something a reader must know, and what it is about. */
export interface TimedWarning {
  readonly reason: TimedWarningReason;
  readonly recording: string | null;
  readonly message: string;
}

export type TimedWarningReason =
  | TimedLeftOutReason
  | 'renamed'
  | 'untrusted-clock'
  | 'late'
  | 'far-clock'
  | 'truth-gaps'
  | 'truth-times'
  | 'undated'
  | 'no-uncertainty'
  | 'coarse-truth'
  | 'truth-off-route'
  | 'no-baseline'
  | 'one-run';
