import type { Name, PositiveSize, ReceiverLooks, Size } from '../model';

/**
 * A whole test in one JSON file: what `datumline assess TEST.json` reads. Names of files are relative to the test file;
 * `datumline/schemas/testFile.json` describes it to an editor.
 */
export interface TestFile {
  /** Where an editor finds the schema of this document; not read. */
  readonly $schema?: string;
  /** Version of this document's shape. */
  readonly version: 1;
  /** What the test is called. */
  readonly name?: Name;
  /** A file: a recipe, a GeoJSON FeatureCollection, or the one line of a GPX or KML file. */
  readonly route: Name;
  /** One for each time the route was travelled. @minItems 1 */
  readonly runs: readonly TestRun[];
  /** A file with the line that receivers may be drawn to, such as a mapped centreline. */
  readonly decoy?: Name;
  /** A file with the centreline of the street, to tell its sides. */
  readonly centreline?: Name;
  /**
   * A GeoJSON file with the areas that recorded lines are judged by: polygons with the properties `area` (a name) and `kind`
   * (`allowed` or `impossible`).
   */
  readonly areas?: Name;
  /** A GeoJSON file with what is drawn under the plan: ways, houses, water, green, by the property `kind`. */
  readonly surroundings?: Name;
  /** Stretches left out of every run. */
  readonly exclusions?: readonly TestExclusion[];
  /** Passed on to {@link assess}. */
  readonly options?: TestOptions;
  /** How receivers are drawn, in every picture alike; those not named here are drawn by their name. */
  readonly looks?: ReceiverLooks;
  /** Anything worth keeping beside the test: weather, who ran. Not read. */
  readonly notes?: string;
}

/** The recordings of one time that the route was travelled. */
export interface TestRun {
  /** What the run is called. */
  readonly name: Name;
  /** When, in the author's words, to stand in the report: no other date does, as times of recordings are not told. */
  readonly date?: Name;
  /** One for each receiver that was carried. @minItems 1 */
  readonly recordings: readonly TestRecording[];
  /**
   * A file with one recording that knows the true place by the second, of a survey-grade receiver carried along: the run is
   * judged against it as well.
   */
  readonly truth?: Name;
  /** Stretches left out of this run only: a detour really travelled. */
  readonly exclusions?: readonly TestExclusion[];
  /** Anything worth keeping beside the run. Not read. */
  readonly notes?: string;
}

/** One recording and how it was made. */
export interface TestRecording {
  /** The file that holds it. */
  readonly file: Name;
  /** Which receiver made it: the same word in every run. */
  readonly receiver: Name;
  /** Where it was carried: `left wrist`, `handlebar`. */
  readonly placement?: Name;
  /** Name of the track, where the file has several. */
  readonly track?: Name;
  /** Zone of times that state none: `Z`, `+02:00`. */
  readonly zone?: Name;
  /** Anything worth keeping beside the recording. Not read. */
  readonly notes?: string;
}

/** What is left out, and why: a stretch in metres along the route, or a section by its name. */
export type TestExclusion = TestStretchExclusion | TestSectionExclusion;

/** A section that is left out. */
export interface TestSectionExclusion {
  /** As the route calls it: `oval` is that of every lap, `oval, lap 2` the one. */
  readonly section: Name;
  /** Why, in the author's words. */
  readonly reason: Name;
}

/** A stretch in metres along the route that is left out. */
export interface TestStretchExclusion {
  /** Metres along the route where it begins. */
  readonly from: Size;
  /** Metres along the route where it ends. */
  readonly to: Size;
  /** Why, in the author's words. */
  readonly reason: Name;
}

/** Options of {@link assess} that a test file can set. */
export interface TestOptions {
  /** Metres between the receiver and the line that the reference describes. */
  readonly leverArm?: Size;
  /** Differences within so many metres count as equivalent. */
  readonly equivalence?: PositiveSize;
  /** `shared`, the default: the recordings of a run were carried by one body; `apart`: each by its own. */
  readonly pace?: 'shared' | 'apart';
  /** The receiver that alone the others are compared with. */
  readonly baseline?: Name;
}
