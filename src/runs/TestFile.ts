/**
 * A whole test in one JSON file: what `datumline assess TEST.json` reads. Checked by {@link testFileSchema}; names of files
 * are relative to the test file.
 */
export interface TestFile {
  readonly version: 1;
  readonly name?: string;
  /** A file: a recipe, a GeoJSON FeatureCollection, or the one line of a GPX or KML file. */
  readonly route: string;
  /** One for each time the route was travelled. */
  readonly runs: readonly TestRun[];
  /** A file with the line that receivers may be drawn to, such as a mapped centreline. */
  readonly decoy?: string;
  /** A file with the centreline of the street, to tell its sides. */
  readonly centreline?: string;
  /** Stretches left out of every run. */
  readonly exclusions?: readonly TestExclusion[];
  /** Passed on to {@link assess}. */
  readonly options?: TestOptions;
  /** Anything worth keeping beside the test: weather, who ran. Not read. */
  readonly notes?: string;
}

/** The recordings of one time that the route was travelled. */
export interface TestRun {
  readonly name: string;
  readonly recordings: readonly TestRecording[];
  /** Stretches left out of this run only: a detour really travelled. */
  readonly exclusions?: readonly TestExclusion[];
  readonly notes?: string;
}

/** One recording and how it was made. */
export interface TestRecording {
  readonly file: string;
  /** Which receiver made it: the same word in every run. */
  readonly receiver: string;
  /** Where it was carried: `left wrist`, `handlebar`. */
  readonly placement?: string;
  /** Name of the track, where the file has several. */
  readonly track?: string;
  /** Zone of times that state none: `Z`, `+02:00`. */
  readonly zone?: string;
  readonly notes?: string;
}

/** A stretch in metres along the route, and why it is left out. */
export interface TestExclusion {
  readonly from: number;
  readonly to: number;
  readonly reason: string;
}

/** Options of {@link assess} that a test file can set. */
export interface TestOptions {
  /** Metres between the receiver and the line that the reference describes. */
  readonly leverArm?: number;
  /** Differences within so many metres count as equivalent. */
  readonly equivalence?: number;
}
