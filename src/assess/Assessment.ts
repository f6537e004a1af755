import type { Position } from 'geojson';
import type { AreaKind } from '../areas';
import type {
  AmbiguousStretch,
  Count,
  FixState,
  Natural,
  ProvenanceStretch,
  ReadIssue,
  Share,
  Side,
  Size,
  SnapIssue,
} from '../model';
import type { Interval } from '../statistics';

export type { Interval };

/**
 * What `assess` found: plain JSON that survives a round trip, described by `datumline/schemas/assessment.json`.
 *
 * Lengths are metres, times seconds, angles degrees, shares 0–1, offsets right of travel positive. What the data cannot
 * say is null, never NaN. A `recording` is named by its unique name, a `section` by its name, null for the whole route.
 */
export interface Assessment {
  /** Version of this document's shape. */
  readonly schema: 1;
  readonly route: AssessedRoute;
  /** In the order given, those left out included. */
  readonly recordings: readonly AssessedRecording[];
  /** One for each recording that was placed, and each section, then the whole route. */
  readonly rows: readonly AssessmentRow[];
  /** Worst first. */
  readonly excursions: readonly Excursion[];
  /** Stays in impossible areas and outside every allowed one, longest first; empty without areas. */
  readonly passages: readonly Passage[];
  /** Turns of the route in order, and how each recording took them. */
  readonly corners: readonly Corner[];
  /** Distance and time shown by each recording at each mark and at the finish. */
  readonly distances: readonly MarkDistance[];
  /** Every two recordings of one run, on the stretch both cover, by section, then the whole route. */
  readonly pairs: readonly Pair[];
  /** By section, then the whole route; one for each run. */
  readonly order: readonly SectionOrder[];
  /** Spread between laps at the same place, by recording. */
  readonly lapRepeatability: readonly LapRepeatability[];
  /** Why each recording's total length misleads. */
  readonly totals: readonly TotalLength[];
  /** What changes when the reference is moved by its stated uncertainty; null where none is stated. */
  readonly referenceDoubt: ReferenceDoubt | null;
  /** Shift shared by all recordings, reported and never removed; null where the route has too few directions to tell. */
  readonly commonShift: CommonShift | null;
  readonly method: AssessmentMethod;
  readonly warnings: readonly AssessmentWarning[];
}

/** A line for drawing: thinned, longitudes unwrapped, three columns of one length. */
export interface DrawnLine {
  readonly lon: readonly number[];
  readonly lat: readonly number[];
  /** Metres along the route; null where the fix is not on it. */
  readonly alongTrack: readonly (number | null)[];
}

/** The reference as it was judged against. */
export interface AssessedRoute {
  readonly name: string | null;
  readonly length: Size;
  readonly sections: readonly AssessedSection[];
  readonly marks: readonly { readonly name: string; readonly alongTrack: Size }[];
  /** Ends of the bins in metres along-track, one more than there are bins: at most a metre each, none across a section's end. */
  readonly bins: readonly Size[];
  readonly line: DrawnLine;
  /** Edges of the corridor, one pair for each section that states a half width. */
  readonly corridor: readonly {
    readonly section: string;
    readonly halfWidth: Size;
    readonly left: DrawnLine;
    readonly right: DrawnLine;
  }[];
  /** The decoy line as given, where one was. */
  readonly decoy: DrawnLine | null;
  /** The centreline as given, where one was. */
  readonly centreline: DrawnLine | null;
  /** By bin: offset of the decoy from the reference, right positive; null where it is not beside the route. Null without one. */
  readonly decoyOffsets: readonly (number | null)[] | null;
  /** By bin: offset of the centreline from the reference. */
  readonly centrelineOffsets: readonly (number | null)[] | null;
  /** What the reference was drawn from, by stretch; empty where it was not stated. */
  readonly provenance: readonly ProvenanceStretch[];
  /** Stretches taken out for all recordings alike. */
  readonly excluded: readonly Exclusion[];
  /** The areas as far as they lie near the route, to be drawn; null where none were given. */
  readonly areas: readonly AssessedArea[] | null;
}

/** An area near the route, as drawn. */
export interface AssessedArea {
  readonly name: string;
  readonly kind: AreaKind;
  /** Metres that its edges are known to, the most of any. */
  readonly doubt95: Size;
  /** Each thinned to 0.1 m, and cut off 500 m beyond the box about the route: its outer ring, then its holes. */
  readonly polygons: readonly (readonly AssessedRing[])[];
}

/** A closed ring, longitudes unwrapped, two columns of one length. */
export interface AssessedRing {
  readonly lon: readonly number[];
  readonly lat: readonly number[];
}

/** A section as judged. */
export interface AssessedSection {
  readonly name: string;
  readonly from: Size;
  readonly to: Size;
  readonly halfWidth: Size | null;
  readonly environment: string | null;
  readonly lap: Natural | null;
  /** Largest stated lateral uncertainty (95 %) of the reference in it; null where any of it is unstated. */
  readonly lateral95: Size | null;
}

/** A stretch taken out of every figure, for all recordings alike. */
export interface Exclusion {
  readonly from: number;
  readonly to: number;
  readonly reason: string;
}

/** A section taken out of every figure, for all recordings alike. */
export interface SectionExclusion {
  /** As the route or the assessment calls it: `oval` is that of every lap, `oval, lap 2` the one. */
  readonly section: string;
  readonly reason: string;
}

/** One recording as a whole. */
export interface AssessedRecording {
  /** Unique within the assessment. */
  readonly name: string;
  readonly receiver: string | null;
  readonly placement: string | null;
  readonly run: string | null;
  /** Whether it stands in pairs, orders and shared figures. */
  readonly included: boolean;
  /** Why it was left out; null when included. */
  readonly leftOut: LeftOut | null;
  readonly fixes: Count;
  /** Fixes by where they were placed. */
  readonly states: Readonly<Record<FixState, Count>>;
  /** Metres along-track of the first and last fix on the route. */
  readonly joined: Size | null;
  readonly left: Size | null;
  /** Seconds from the first to the last fix. */
  readonly duration: Size | null;
  /** Recorded before the route was joined and after it was left. */
  readonly before: OutsideStretch;
  readonly after: OutsideStretch;
  readonly fixInterval: FixInterval | null;
  /** Metres between fixes. */
  readonly fixSpacing: { readonly median: number; readonly p95: number } | null;
  readonly gaps: readonly Gap[];
  /** Where the offset first stayed within the corridor for a minute; null if it never did or there are no times. */
  readonly settled: { readonly alongTrack: Size; readonly seconds: number } | null;
  readonly offRoute: readonly OffRouteEpisode[];
  readonly stops: readonly Stop[];
  readonly laps: LapCount | null;
  /** Progress against the direction of travel: metres, and the share of steps. */
  readonly backwards: { readonly metres: Size; readonly share: Share } | null;
  /**
   * Seconds by which it is late (positive), a clock that is ahead included: the `clockOffset` of `snapTogether`, later than the
   * majority of the recordings of its run that lie closest together, where these agree within their noise, else than the median of
   * all. And how steadily, 1.4826 × the median deviation over the way. Null with fewer than 3 that have times: of two nobody
   * knows which is late.
   */
  readonly lag: { readonly median: number; readonly spread: Size } | null;
  /** What is wrong with it as a whole: recorded against the line, or with a clock that can't be trusted. */
  readonly placing: readonly SnapIssue[];
  /** How sure the placing on this part of the route is. */
  readonly confidence: { readonly mean: Share; readonly min: Share; readonly unsureShare: Share } | null;
  /** Stretches that could lie on another part of the route as well. */
  readonly ambiguous: readonly Pick<AmbiguousStretch, 'from' | 'to' | 'reason' | 'message'>[];
  readonly data: DataQuality;
  /** FNV-1a, 64 bit, of its positions alone: the same for one file given twice, whatever its name and clock. */
  readonly hash: string;
  /** Metres of the line recorded from joining the route to leaving it, breaks not bridged. */
  readonly recordedLength: Size | null;
  /**
   * Offset in each of the route's `bins`, right positive, to the millimetre; null where it has none. Without sign where the
   * recording ran against the route.
   */
  readonly offsets: readonly (number | null)[];
  /** Seconds since its first fix in each bin, to the hundredth; null where it has none, all null without times. */
  readonly seconds: readonly (number | null)[];
  /**
   * What was recorded from joining the route to leaving it, thinned; a new piece after each break. Fixes further from the
   * route than 50 m, or half the corridor where that is more, are cut: no position in this document tells where someone
   * came from, went home to, or was on a detour, of which `offRoute` says where it began, how far and how long.
   */
  readonly pieces: readonly DrawnLine[];
}

/** Why a recording stands in no comparison. */
export interface LeftOut {
  readonly reason: LeftOutReason;
  readonly message: string;
}

export type LeftOutReason = 'too-few-fixes' | 'off-the-route' | 'spans-days' | 'unreadable';

export interface OutsideStretch {
  readonly fixes: Count;
  readonly length: Size;
  readonly seconds: number | null;
}

/** How often it logged. */
export interface FixInterval {
  /** Seconds. */
  readonly median: Size;
  readonly p95: Size;
  /** Share of intervals equal to the most frequent one, to the tenth of a second. */
  readonly regularShare: Share;
  /** `fixed` when at least nine in ten intervals are equal. */
  readonly kind: 'fixed' | 'variable';
}

/**
 * - `break`: the file starts a new piece
 * - `pause`: a break, and hardly moved over it
 * - `silence`: the clock ran on and no fix was logged
 * - `jump`: the fixes on its two sides lie further apart than anyone travels in that time
 */
export type GapReason = 'break' | 'pause' | 'silence' | 'jump';

/** A stretch without usable fixes. */
export interface Gap {
  /** Metres along-track of the fix before and after it; null where that fix is not on the route. */
  readonly from: Size | null;
  readonly to: Size | null;
  readonly seconds: number | null;
  /** Straight metres between the two fixes. */
  readonly metres: Size;
  readonly reason: GapReason;
}

/** A time spent away from the route. */
export interface OffRouteEpisode {
  /** Metres along-track where it left and came back. */
  readonly from: Size;
  readonly to: Size;
  readonly seconds: number | null;
  /** Metres recorded meanwhile, and by how much more than the route's own. */
  readonly length: Size;
  readonly detour: number;
  /** Largest distance from that stretch of the route. */
  readonly peak: Size | null;
  /** Other recordings of the run that were away there too: when all were, a detour was really travelled. */
  readonly alsoAway: readonly string[];
}

/** A time spent standing: how far the fixes wander when the wearer doesn't. */
export interface Stop {
  readonly alongTrack: Size;
  readonly seconds: Size;
  /** Radius about the mean position that holds half, and 95 %, of the fixes. */
  readonly r50: Size;
  readonly r95: Size;
  /** Metres of line recorded while standing. */
  readonly length: Size;
}

/** Laps planned and seen. */
export interface LapCount {
  readonly planned: Count;
  /**
   * Laps ridden, whichever of those planned they were: as many as at least four fifths of the lap were passed. Where the laps
   * differ in length by more than 2 %, those of which at least four fifths were covered with confidence.
   */
  readonly seen: Count;
  readonly laps: readonly { readonly lap: Natural; readonly coverage: Share; readonly seconds: number | null }[];
}

/** Counts of what is wrong with the fixes themselves. */
export interface DataQuality {
  /** Fixes at the same place and time as the one before. */
  readonly duplicates: Count;
  /** Times not later than the one before. */
  readonly reversedTimes: Count;
  /** Steps faster than anyone travels. */
  readonly jumps: Count;
  readonly missingTimes: Count;
  /** What reading the file dropped or mended. */
  readonly issues: readonly ReadIssue[];
}

/** One recording on one section, or on the whole route. Each metre of the route counts once unless a name says otherwise. */
export interface AssessmentRow {
  readonly recording: string;
  readonly section: string | null;
  readonly from: Size;
  readonly to: Size;
  /** Share of the section's metres with an offset. */
  readonly coverage: Share;
  /** Metres with an offset. */
  readonly covered: Size;
  /** Mean distance from the reference: equals the area between the lines divided by the length, to first order. */
  readonly meanAbsolute: Size | null;
  /** 95 % interval of `meanAbsolute`, for this run only; null with fewer than 3 effective samples. */
  readonly interval95: Interval | null;
  readonly median: Size | null;
  readonly p68: Size | null;
  readonly p90: Size | null;
  /** With fewer than 20 effective samples this is practically the maximum. */
  readonly p95: Size | null;
  readonly max: Size | null;
  readonly rms: Size | null;
  /** Mean offset, right positive. */
  readonly bias: number | null;
  /** 95 % interval of `bias`, for this run only; null with fewer than 3 effective samples. */
  readonly biasInterval95: Interval | null;
  /** Where the bias exceeds the reference's stated uncertainty, and 5 cm: its side. */
  readonly biasSide: Side | null;
  /** "2.1 m left"; "on the line" within 5 cm. */
  readonly biasInWords: string | null;
  readonly medianOffset: number | null;
  /** Spread about the bias. */
  readonly sd: Size | null;
  /** 1.4826 × median absolute deviation: the spread without the outliers. */
  readonly robustSd: Size | null;
  /** Square metres between the lines; signed the parts cancel: never rank by it. */
  readonly area: Size | null;
  readonly signedArea: number | null;
  /** As travelled: each second counts once, so that standing counts. */
  readonly timeWeighted: {
    readonly seconds: Size;
    readonly meanAbsolute: Size;
    readonly rms: Size;
    readonly bias: number;
  } | null;
  /** Share of covered metres within the corridor, the reference's uncertainty not added to it. */
  readonly insideCorridor: Share | null;
  readonly insideCorridorInterval95: Interval | null;
  /** As `insideCorridor`, of all metres: what isn't covered isn't inside. */
  readonly insideCorridorOfAll: Share | null;
  /** Share of covered metres on the reference's side of the centreline; null without one. */
  readonly correctSide: Share | null;
  readonly correctSideInterval95: Interval | null;
  /** Share within the reference's uncertainty of the centreline: side not resolved, not counted as correct. */
  readonly undecidedSide: Share | null;
  /**
   * Share of the recorded line that surely lay inside the allowed areas, all together; null without any. Of the line between
   * joined fixes beside the route, cut exactly at the edges; what lies within `doubt95` of an edge is `undecidedAllowed`.
   */
  readonly insideAllowed: Share | null;
  /** 95 % interval of `insideAllowed`, for this run only; null with fewer than 3 effective samples. */
  readonly insideAllowedInterval95: Interval | null;
  readonly undecidedAllowed: Share | null;
  /** What surely lay outside of every allowed area; null without any. */
  readonly outsideAllowed: GroundMetres | null;
  /** What surely lay inside an impossible area, how often one was entered, and metres too near an edge to tell; null without any. */
  readonly insideImpossible: (GroundMetres & { readonly times: Count; readonly undecided: Size }) | null;
  /** The same by area, those left out that were not come near; null where no areas were given. */
  readonly areas: readonly AreaFigures[] | null;
  /** Line recorded in the section, breaks not bridged. */
  readonly recordedLength: Size | null;
  readonly referenceLength: Size;
  /** `recordedLength` − `referenceLength` = `turnTerm` + `wiggleTerm` + `remainder`. */
  readonly lengthError: number | null;
  /** Length from keeping outside (+) or inside (−) of the route's turns. */
  readonly turnTerm: number | null;
  /** Length from weaving, jitter and going back and forth: never negative. */
  readonly wiggleTerm: number | null;
  /** What is left: metres not recorded (negative), detours, chords across bends. */
  readonly remainder: number | null;
  /** High-pass spread of the offset over 10 m, sign changes a kilometre: jittery or over-smooth. */
  readonly roughness: { readonly sd10: Size; readonly crossings: Size } | null;
  /**
   * Length over which the offset keeps 1/e of its correlation, metres, and the same in seconds at the median pace; null when
   * it does so over a third of the stretch or more. On sections only a few such lengths long it comes out too short.
   */
  readonly correlationLength: Size | null;
  readonly correlationTime: Size | null;
  /** As many independent samples would tell as much of `meanAbsolute`. */
  readonly effectiveSamples: Size | null;
  /** What this run alone foretells of the scatter of its figures, for `combine`; null with fewer than 3 effective samples. */
  readonly foretold: Foretold | null;
  /** Median seconds between fixes in it. */
  readonly fixInterval: Size | null;
  /** Gaps that touch it, and the metres of it without an offset. */
  readonly gaps: Count;
  readonly missing: number;
  /** Metres of it spent off the route, which no offset describes. */
  readonly offRoute: Size;
  /** Share of its metres that could lie on another part of the route as well. */
  readonly ambiguousShare: Share;
  /** Seconds from its start to its end, without those of stretches left out; null where one of the ends is not covered. */
  readonly seconds: number | null;
  /** Metres a second along the route: 5th, 50th, 95th percentile. */
  readonly pace: { readonly p5: number; readonly median: number; readonly p95: number } | null;
  /** Error along the route, where recordings of the run share a pace; else null. */
  readonly alongTrackError: AlongTrackError | null;
  readonly mapAttraction: MapAttraction | null;
  /** `meanAbsolute` ÷ the reference's stated uncertainty: below 2 the reference cannot resolve it. */
  readonly resolution: Size | null;
  /** Whether it surely left the line or surely kept to it. */
  readonly lineVerdict: LineVerdict;
  /** The side it surely strayed to; null where it didn't, or on both sides. */
  readonly strayedTo: Side | null;
  /** Metres beyond which it strays: half the corridor, at least the reference's uncertainty and the lever arm. */
  readonly lineLimit: Size;
  /** The side that its mean offset surely lies to, beyond `sideLimit`, within the corridor or not; null where neither is shown. */
  readonly sureSide: Side | null;
  /** Metres within which no side is sure: the reference's stated uncertainty, at least the lever arm. */
  readonly sideLimit: Size;
  /** Half the corridor, the widest; null where any of the stretch states none. */
  readonly halfWidth: Size | null;
  /** Metres: no difference smaller than this is claimed here. */
  readonly verdictLimit: Size | null;
  /** Why the figures of this row should be read with care. */
  readonly limits: readonly RowLimit[];
}

/** Metres of recorded line somewhere, and how long it took; seconds null without times. */
export interface GroundMetres {
  readonly metres: Size;
  readonly seconds: Size | null;
}

/** What of a recorded line lay in one area. */
export interface AreaFigures extends GroundMetres {
  readonly area: string;
  readonly kind: AreaKind;
  /** Shares of the recorded line: surely inside, and too near an edge to tell. */
  readonly inside: Share;
  readonly undecided: Share;
  /** How often an impossible area was entered; null for an allowed one. */
  readonly times: Count | null;
}

/**
 * - `strayed`: surely beyond the limit on average, see `lineLimit`
 * - `kept`: surely within it
 * - `undecided`: neither is shown
 */
export type LineVerdict = 'strayed' | 'kept' | 'undecided';

/** By how much a run's figures may be off by chance, as foretold from within the run, before any widening. */
export interface Foretold {
  /** Standard errors in metres of `meanAbsolute` and `bias`; null where the bias has too few samples. */
  readonly meanAbsolute: Size;
  readonly bias: Size | null;
  /** As many independent yes or no as tell as much of `insideCorridor` and `correctSide`; null where these are. */
  readonly insideSamples: Size | null;
  readonly correctSamples: Size | null;
  /** The same of `insideAllowed`. */
  readonly allowedSamples: Size | null;
  /** Degrees of freedom of the error of `meanAbsolute`. */
  readonly degrees: Size;
}

/** A reason to read a row's figures with care. */
export interface RowLimit {
  readonly reason:
    | 'left-out'
    | 'not-covered'
    | 'low-coverage'
    | 'few-samples'
    | 'too-short'
    | 'unlike-memories'
    | 'own-draft'
    | 'coarse-reference'
    | 'ambiguous';
  readonly message: string;
}

/**
 * How far a recording lies ahead of or behind the body, relative to the pace that the recordings of its run share: the
 * median of them at each second, itself included, its clock's offset over the whole run taken out. What all have in
 * common does not show, and of two each shows half of their difference.
 */
export interface AlongTrackError {
  /** Mean, ahead positive, each metre that the body moved counting once. */
  readonly bias: number;
  /** Distance along the route that 95 % of it stayed within. */
  readonly p95: Size;
  /** Seconds late (positive) here, the clock's offset left in: `recordings.lag` less `bias` over the body's pace. */
  readonly lag: number | null;
  /** Recordings that share the pace. */
  readonly receivers: Count;
}

/** Whether the recording is drawn towards the decoy line. */
export interface MapAttraction {
  /** 0 ignores it, 1 lies on it; null when it cannot be told. */
  readonly index: Share | null;
  readonly interval95: Interval | null;
  readonly verdict: 'attracted' | 'not attracted' | 'cannot tell';
  /** Why it cannot be told; null where it can. */
  readonly reason: 'decoy-too-near' | 'steady-decoy' | 'one-place' | 'noisy-offsets' | 'wide-interval' | null;
  readonly message: string | null;
  /** Share of metres nearer to the decoy than to the reference. */
  readonly nearerShare: Share;
  /** Spread about the decoy and about the reference. */
  readonly sdAboutDecoy: Size;
  readonly sdAboutReference: Size;
}

/** A stretch further from the route than the corridor allows. */
export interface Excursion {
  /** 1 is the worst. */
  readonly number: Natural;
  readonly recording: string;
  readonly section: string | null;
  readonly from: Size;
  readonly to: Size;
  readonly metres: Size;
  readonly seconds: Size | null;
  /** Largest offset, right positive, and where; without sign where the recording ran against the route. */
  readonly peak: number;
  /** `null` where the recording ran against the route: sides are not judged then. */
  readonly side: Side | null;
  readonly peakAt: Size;
  /** On the route at the peak. */
  readonly position: Position;
  /** Square metres between the route and the recording. */
  readonly area: Size;
  /** The distance that had to be exceeded. */
  readonly threshold: Size;
  /** Whether metres without an offset lie in it. */
  readonly broken: boolean;
}

/** A stay in an impossible area, or outside every allowed one. */
export interface Passage {
  /** 1 is the longest. */
  readonly number: Natural;
  readonly recording: string;
  /** The impossible area; null for a stay outside every allowed one. */
  readonly area: string | null;
  /** Where it was deepest. */
  readonly section: string | null;
  /** Metres along the route. */
  readonly from: Size;
  readonly to: Size;
  /** Metres of recorded line that were surely there, and seconds; null without times. */
  readonly metres: Size;
  readonly seconds: Size | null;
  /** Most metres from the edge, and where along the route. */
  readonly deepest: Size;
  readonly deepestAt: Size;
  /** On the route beside the deepest place: no position tells where the recording was. */
  readonly position: Position;
}

/** A turn of the route. */
export interface Corner {
  readonly number: Natural;
  readonly section: string | null;
  readonly from: Size;
  readonly to: Size;
  /** Where half of the turn is done. */
  readonly alongTrack: Size;
  readonly position: Position;
  /** Degrees turned, unsigned. */
  readonly turn: Size;
  readonly direction: Side;
  readonly passages: readonly CornerPassage[];
}

/** How one recording took a corner: offsets outside of the turn positive, inside negative. */
export interface CornerPassage {
  readonly recording: string;
  readonly coverage: Share;
  /** Furthest inside (least) and outside (greatest), and the mean. */
  readonly inside: number | null;
  readonly outside: number | null;
  readonly mean: number | null;
  /** Square metres, outside positive. */
  readonly area: number | null;
  /** `null` where less than half of it is covered. */
  readonly outcome: 'cut inside' | 'overshot outside' | 'kept' | null;
}

/** What a recording shows at a place. */
export interface MarkDistance {
  readonly recording: string;
  /** Name of the mark; null for the finish. */
  readonly mark: string | null;
  /** Metres along the reference. */
  readonly alongTrack: Size;
  /**
   * Metres of line recorded since joining the route, at the last fix where that lies 2 m, or one and a half usual steps, before the place;
   * null where the place is not covered.
   */
  readonly recorded: Size | null;
  /** Recorded minus the reference since joining it. */
  readonly error: number | null;
  /** Seconds since passing the route's first covered metre. */
  readonly seconds: number | null;
  /** Seconds later (positive) than the median of the run's recordings at the place; null with fewer than 3. */
  readonly late: number | null;
}

/**
 * - `closer`: one lay closer, beyond chance and beyond what the reference and the lever arm leave open
 * - `equivalent`: the difference surely lies within the margin
 * - `undecided`: neither is shown
 *
 * In an assessment it speaks of two recordings of one run. Over several runs, there and in a summary, it speaks of receivers:
 * two that were never swapped between the places they are worn at stay undecided.
 */
export type Verdict = 'closer' | 'equivalent' | 'undecided';

/** Two recordings of one run on the metres both cover. */
export interface Pair {
  readonly first: string;
  readonly second: string;
  readonly section: string | null;
  /** Mean distance of `first` minus that of `second`: negative, `first` lies closer. */
  readonly difference: number | null;
  /** For this run only; null with fewer than 3 effective samples. */
  readonly interval95: Interval | null;
  /** The one that equivalence is judged by: two one-sided tests at 5 %. */
  readonly interval90: Interval | null;
  readonly verdict: Verdict;
  /** The closer one; null unless the verdict is `closer`. */
  readonly closer: string | null;
  /** Share of the section that both cover. */
  readonly commonShare: Share;
  /**
   * Metres a difference must exceed: the lever arm, or the most that moving the reference by its uncertainty changes; on top, what
   * straight lines between sparser fixes alone bring the closer one closer.
   */
  readonly floor: Size;
  /** What of the floor sparser fixes of the closer one alone explain: the whole interval must lie beyond it. */
  readonly sparseGain: Size;
  /** Two-sided, before and after the correction over the section's pairs. */
  readonly pValue: Share | null;
  readonly adjustedPValue: Share | null;
  readonly effectiveSamples: Size | null;
  /** A true difference of this size would be found four times in five in such a run, the other pairs being as they are. */
  readonly detectable: Size | null;
  /** What the interval rests on, for `combine`; null with fewer than 3 effective samples. */
  readonly foretold: ForetoldPair | null;
  /** Correlation of the two offsets: near 1 they err together, from the reference, the wearer or the place. */
  readonly correlation: number | null;
  /** Share of the variance that both have in common. */
  readonly commonModeShare: Share | null;
  /** Metres between the two at the same instant of their clocks. */
  readonly apart: { readonly median: number; readonly p95: number } | null;
  /** Area between the two recordings ÷ length, metres, beside the difference of their lengths: equal totals, other roads. */
  readonly between: Size | null;
  readonly lengthDifference: number | null;
  /** What held the verdict back. */
  readonly limits: readonly VerdictLimit[];
}

/** Two mean distances on the metres that both cover, and by how much they may be off by chance, before any widening. */
export interface ForetoldPair {
  readonly first: Size;
  readonly second: Size;
  /** Variances of the logarithms of the two, and of their ratio: errors in common cancel. */
  readonly firstVariance: Size;
  readonly secondVariance: Size;
  readonly variance: Size;
  readonly degrees: Size;
}

/** A reason why a verdict stayed undecided. */
export interface VerdictLimit {
  readonly reason:
    | 'nothing-in-common'
    | 'little-in-common'
    | 'too-short'
    | 'one-run'
    | 'includes-zero'
    | 'below-floor'
    | 'many-pairs'
    | 'off-the-route'
    | 'outages'
    | 'sparse-fixes'
    | 'own-draft'
    | 'unbalanced';
  readonly message: string;
}

/** The recordings of a run by mean distance, with those that cannot be told apart marked alike. */
export interface SectionOrder {
  readonly section: string | null;
  readonly run: string | null;
  readonly entries: readonly OrderEntry[];
  /** Probability that all lie equally close; null with fewer than four that are compared, and beside a baseline. */
  readonly overallPValue: Share | null;
  /** The same in a sentence, refusing where nothing is shown. */
  readonly sentence: string;
}

export interface OrderEntry {
  readonly recording: string;
  readonly meanAbsolute: Size;
  /** Mean over the sections, each counting the same; whole route only. */
  readonly balancedMean: Size | null;
  /** Two recordings that share a letter were not told apart. */
  readonly ties: string;
  /** Best and worst place that the verdicts leave open, from 1. */
  readonly place: { readonly best: Natural; readonly worst: Natural };
}

/** How far laps of one recording differ at the same place: the wearer's own wander included. */
export interface LapRepeatability {
  readonly recording: string;
  /** The section as it is called in every lap. */
  readonly section: string;
  readonly laps: Count;
  /** Spread of the offset over the laps at a place, quadratic mean over the places. */
  readonly sd: Size;
}

/** A recording's total length beside the sum of what hides in it. */
export interface TotalLength {
  readonly recording: string;
  readonly recordedLength: Size;
  readonly referenceLength: Size;
  readonly lengthError: number;
  /**
   * Sum of the error's size over the sections and what lies between them. Each metre counts once: of sections in one another
   * as part of the innermost.
   */
  readonly absoluteErrors: Size;
  /** |sum of errors| ÷ sum of their sizes: near 0 the total hides everything; null with a single stretch. */
  readonly cancellation: Share | null;
  /** The same over their turn and wiggle terms. */
  readonly termCancellation: Share | null;
}

/** Figures again with the reference moved by its stated uncertainty. */
export interface ReferenceDoubt {
  /** Largest stated lateral uncertainty, metres. */
  readonly shift: Size;
  readonly trials: readonly {
    /** "north", "north-east", …, "left", "right". */
    readonly direction: string;
    /** Pairs of the whole route's order that change places. */
    readonly orderChanges: Count;
    /** Pairs of any section whose difference changes its sign. */
    readonly signChanges: Count;
    /** Of those, pairs that were called closer. */
    readonly verdictChanges: Count;
  }[];
  /** Largest count over the trials. */
  readonly orderChanges: Count;
  readonly verdictChanges: Count;
}

/** The translation that explains most of all offsets. */
export interface CommonShift {
  readonly east: number;
  readonly north: number;
  readonly distance: Size;
  readonly azimuth: Size;
  /** Standard error of east and north from the differences between the recordings; null with one. */
  readonly standardError: { readonly east: Size; readonly north: Size } | null;
  readonly recordings: Count;
}

/** Everything chosen, so that another can do it again. */
export interface AssessmentMethod {
  readonly library: string;
  readonly version: string;
  /** Metres of a bin: the grid on which each counts once. */
  readonly binLength: Size;
  readonly weighting: string;
  readonly interval: string;
  readonly verdict: string;
  readonly lineVerdict: string;
  readonly gapRule: string;
  readonly lengthRule: string;
  /** The options as used, defaults filled in. */
  readonly options: {
    readonly leverArm: Size;
    readonly equivalence: Size;
    readonly defaultHalfWidth: Size;
    readonly pace: 'shared' | 'apart';
    /** The receiver that alone the others are compared with; null where every two are. */
    readonly baseline: string | null;
    readonly exclude: readonly Exclusion[];
  };
  /** FNV-1a, 64 bit, of what was judged: the same on every engine. */
  readonly hash: string;
  /** The route's of its recipe, whatever the order of its keys; a recording's of its positions, times, breaks and names. */
  readonly inputs: readonly { readonly name: string; readonly hash: string }[];
  /** The same in sentences, for a method box. */
  readonly sentences: readonly string[];
  /** To be printed wherever the figures are. */
  readonly cautions: readonly string[];
}

/** Something a reader must know, and what it is about. */
export interface AssessmentWarning {
  /** A short, stable word. */
  readonly reason: AssessmentWarningReason;
  readonly recording: string | null;
  readonly section: string | null;
  readonly from: number | null;
  readonly to: number | null;
  readonly message: string;
}

export type AssessmentWarningReason =
  | LeftOutReason
  | 'renamed'
  | 'no-times'
  | 'against-route'
  | 'untrusted-clock'
  | 'low-coverage'
  | 'ambiguous'
  | 'shared-detour'
  | 'clock'
  | 'other-pace'
  | 'same-recording'
  | 'own-draft'
  | 'on-the-line'
  | 'drafted'
  | 'unbalanced'
  | 'no-uncertainty'
  | 'no-sections'
  | 'one-run'
  | 'no-baseline'
  | 'order-depends-on-reference'
  | 'common-shift'
  | 'common-side'
  | 'sparse-fixes'
  | 'excluded'
  | 'areas-elsewhere'
  | 'areas-left-out'
  | 'route';
