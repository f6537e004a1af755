import type { AssessmentMethod, Interval, LineVerdict, Verdict, VerdictLimit } from '../assess';
import type { Count, Name, Natural, Share, Side, Size } from '../model';

/**
 * What several runs say together, as `combine` found it: plain JSON, described by `datumline/schemas/testSummary.json`.
 * The run is the unit: each counts once, however many fixes it has.
 *
 * A `receiver` is the receiver stated with the recordings, or the recording's name where none was. Lengths are metres.
 */
export interface TestSummary {
  /** Version of this document's shape. */
  readonly schema: 1;
  readonly route: {
    readonly name: string | null;
    readonly length: Size;
    readonly sections: readonly string[];
    /** FNV-1a, 64 bit, of its recipe, as in the first assessment's `method.inputs`. */
    readonly hash: string;
  };
  readonly runs: readonly SummaryRun[];
  readonly receivers: readonly string[];
  /** The receiver that alone the others are compared with; null where every two are. */
  readonly baseline: string | null;
  /** One for each receiver and each section, then the whole route. */
  readonly rows: readonly SummaryRow[];
  /** Every two receivers, by section, then the whole route. */
  readonly pairs: readonly SummaryPair[];
  /** By section, then the whole route. */
  readonly order: readonly SummaryOrder[];
  /** Sections in which the order of two receivers is the reverse of the whole route's. */
  readonly flips: readonly { readonly section: string; readonly first: string; readonly second: string }[];
  /** What being worn at one place rather than another changes; empty where receivers were not swapped. */
  readonly placementEffects: readonly PlacementEffect[];
  /** Which receiver was worn where in which run. */
  readonly design: readonly { readonly receiver: string; readonly placement: string | null; readonly runs: Count }[];
  /** What they say by the clock; null where no run was judged against a truth. */
  readonly byTime: TimedSummary | null;
  readonly method: Pick<AssessmentMethod, 'library' | 'version' | 'hash' | 'sentences' | 'cautions'>;
  readonly warnings: readonly SummaryWarning[];
}

export interface SummaryRun {
  /** As stated, or its number. */
  readonly name: string;
  readonly recordings: readonly {
    readonly recording: string;
    readonly receiver: string;
    readonly placement: string | null;
  }[];
}

/** One receiver on one section over the runs. */
export interface SummaryRow {
  readonly receiver: string;
  readonly section: string | null;
  /** Runs with a figure. */
  readonly runs: Count;
  /** Mean over the runs of each run's mean distance. */
  readonly meanAbsolute: Size | null;
  /** 95 % interval over runs, from the spread between them and what each foretells of itself; null with one run. */
  readonly interval95: Interval | null;
  /** Spread between runs: day-to-day repeatability. */
  readonly betweenRunSd: Size | null;
  /** What the scatter within the runs leads to expect of that spread. */
  readonly withinRunSd: Size | null;
  /** Mean over the runs of each run's mean offset, right positive, and its 95 % interval over runs. */
  readonly bias: number | null;
  readonly biasInterval95: Interval | null;
  /** Mean over the runs of the share within the corridor, and of that on the right side of the centreline. */
  readonly insideCorridor: Share | null;
  readonly insideCorridorInterval95: Interval | null;
  readonly correctSide: Share | null;
  readonly correctSideInterval95: Interval | null;
  /** Mean over the runs of the share surely inside the allowed areas, and of that too near an edge to tell; null without areas. */
  readonly insideAllowed: Share | null;
  readonly insideAllowedInterval95: Interval | null;
  readonly undecidedAllowed: Share | null;
  readonly coverage: Share;
  /** Whether it surely left the line or surely kept to it, over the runs. */
  readonly lineVerdict: LineVerdict;
  /** The side it surely strayed to; null where it didn't, or on both sides. */
  readonly strayedTo: Side | null;
  /** Metres beyond which it strays. */
  readonly lineLimit: Size;
  /** The side that its mean offset surely lies to, beyond `sideLimit`, within the corridor or not; null where neither is shown. */
  readonly sureSide: Side | null;
  /** Metres within which no side is sure. */
  readonly sideLimit: Size;
  /** Mean distance of each run, in the order of `runs`. */
  readonly byRun: readonly (number | null)[];
}

/** Two receivers over the runs that have both. */
export interface SummaryPair {
  readonly first: string;
  readonly second: string;
  readonly section: string | null;
  /** Runs with a difference. */
  readonly runs: Count;
  /** Mean over the runs of the mean distance of `first` minus that of `second`, on what both covered. */
  readonly difference: number | null;
  /** 95 % interval over runs, from the spread between them and what each foretells of itself; null with one run. */
  readonly interval95: Interval | null;
  /** The one that equivalence is judged by. */
  readonly interval90: Interval | null;
  readonly verdict: Verdict;
  /** The closer one; null unless the verdict is `closer`. */
  readonly closer: string | null;
  /** Metres a difference must exceed: the greatest of the runs' floors. */
  readonly floor: Size;
  /** Two-sided, as the interval. */
  readonly pValue: Share | null;
  /** Exact sign-flip test: all 2ⁿ signs of the runs' differences; null with more than 20 runs. */
  readonly signFlipPValue: Share | null;
  /** `pValue` corrected over the section's pairs. */
  readonly adjustedPValue: Share | null;
  /** Spread of the differences between runs. */
  readonly betweenRunSd: Size | null;
  /** A true difference of this size would be found four times in five with as many runs, the other pairs being as they are; null with one run. */
  readonly detectable: Size | null;
  /** How many more runs would let a true difference as large as the one seen be found four times in five; 0 where the verdict stands, null if over 200 or no number would do. */
  readonly moreRuns: Count | null;
  /** Difference of each run, in the order of `runs`. */
  readonly byRun: readonly (number | null)[];
  /** What held the verdict back. */
  readonly limits: readonly VerdictLimit[];
  /** The same of the share inside the allowed areas; null where no run has both. */
  readonly insideAllowed: AllowedDifference | null;
}

/** Share inside the allowed areas of one receiver minus that of another, each of its own line, over the runs that have both. */
export interface AllowedDifference {
  readonly runs: Count;
  readonly difference: number;
  /** 95 % interval over runs, from the spread between them; null with one run. */
  readonly interval95: Interval | null;
  /** Corrected over the section's pairs. */
  readonly adjustedPValue: Share | null;
  /** `more`: one was surely more inside; `equivalent`: surely as much, to 2 percentage points; `undecided`: neither is shown. */
  readonly verdict: 'more' | 'equivalent' | 'undecided';
  /** The one that was more inside; null unless the verdict is `more`. */
  readonly more: string | null;
}

export interface SummaryOrder {
  readonly section: string | null;
  readonly entries: readonly {
    readonly receiver: string;
    readonly meanAbsolute: Size;
    /** Mean over the sections, each counting the same; whole route only, null unless every section has a figure. */
    readonly balancedMean: Size | null;
    /** Two receivers that share a letter were not told apart. */
    readonly ties: string;
    readonly place: { readonly best: Natural; readonly worst: Natural };
  }[];
  /** Probability that all lie equally close; null with fewer than four receivers, with one run, and beside a baseline. */
  readonly overallPValue: Share | null;
  readonly sentence: string;
}

/**
 * Mean distance at one place minus that at another on the whole route, free of what receivers and runs change. Only where
 * the design can tell: receivers swapped between the places, not all of them in the same runs.
 */
export interface PlacementEffect {
  readonly first: string;
  readonly second: string;
  /** Receivers that say something of it. */
  readonly receivers: Count;
  readonly difference: number;
  /** 95 %, from what receivers, runs and the place leave over; null where nothing is. */
  readonly interval95: Interval | null;
}

/**
 * What several runs say together by the clock, as `combineByTime` found it: plain JSON. The run is the unit: each counts
 * once, however many fixes it has. Lengths are metres, along ahead positive, across right positive, up positive.
 */
export interface TimedSummary {
  readonly runs: readonly SummaryRun[];
  readonly receivers: readonly string[];
  /** The receiver that alone the others are compared with; null where every two are. */
  readonly baseline: string | null;
  readonly sections: readonly Name[];
  /** One for each receiver and each section, then the whole. */
  readonly rows: readonly TimedSummaryRow[];
  /** Every two receivers by their mean horizontal errors, by section, then the whole. */
  readonly pairs: readonly SummaryPair[];
  readonly sentences: readonly string[];
  readonly warnings: readonly SummaryWarning[];
}

/** One receiver on one section, or the whole, over the runs. */
export interface TimedSummaryRow {
  readonly receiver: string;
  readonly section: string | null;
  /** Runs with a horizontal error. */
  readonly runs: Count;
  readonly horizontal: ErrorOverRuns | null;
  readonly along: ErrorOverRuns | null;
  readonly across: ErrorOverRuns | null;
  readonly up: ErrorOverRuns | null;
  readonly cep50: SizeOverRuns | null;
  readonly ce95: SizeOverRuns | null;
  /** Seconds late. */
  readonly delay: FigureOverRuns | null;
  /** Mean over the runs. */
  readonly availability: Share | null;
  /** The longest of any run. */
  readonly longestOutage: { readonly seconds: Count; readonly run: string } | null;
  /** The largest that any run's truth states; null where one states none. */
  readonly doubt95: Size | null;
  /** Mean horizontal error ÷ `doubt95`: below 2 the truth cannot resolve it. */
  readonly resolution: Size | null;
}

/** A figure with a sign over the runs. */
export interface FigureOverRuns {
  /** Mean over the runs. */
  readonly mean: number;
  /** 95 %, from the spread between the runs and what each foretells of itself; null with one run. */
  readonly interval95: Interval | null;
  /** Spread between the runs; null with one. */
  readonly betweenRunSd: Size | null;
  /** In the order of `runs`. */
  readonly byRun: readonly (number | null)[];
}

/** A size over the runs. */
export interface SizeOverRuns {
  readonly mean: Size;
  readonly interval95: Interval | null;
}

/** One component of the error over the runs. */
export interface ErrorOverRuns extends FigureOverRuns {
  readonly sd: SizeOverRuns;
  readonly rms: SizeOverRuns;
  /** Percentiles of its size: means over the runs of each run's. */
  readonly p50: SizeOverRuns;
  readonly p68: SizeOverRuns;
  readonly p75: SizeOverRuns;
  readonly p95: SizeOverRuns;
  /** The largest of any run. */
  readonly max: Size;
  /** Which of these are below the truth's own uncertainty: not resolved. */
  readonly unresolved: readonly ('mean' | 'sd' | 'rms' | 'p50' | 'p68' | 'p75' | 'p95' | 'max')[];
}

export interface SummaryWarning {
  readonly reason:
    | 'one-run'
    | 'runs-differ'
    | 'unbalanced'
    | 'left-out'
    | 'few-runs'
    | 'missing-receiver'
    | 'clock'
    | 'other-pace'
    | 'on-the-line'
    | 'same-recording'
    | 'other-version';
  readonly receiver: string | null;
  readonly run: string | null;
  readonly message: string;
}
