import type { GeoJSON } from 'geojson';
import type { AssessOptions } from '../assess';
import type { ReceiverLooks, Route } from '../model';
import type { TrackFile } from './readTracks';

/** A file of a test, and how its recording was made. */
export interface PlannedFile extends TrackFile {
  readonly receiver?: string;
  readonly placement?: string;
}

/** One run of a test, and the options it is judged with. */
export interface PlannedRun {
  readonly name?: string;
  /** As the test file states it. */
  readonly date?: string;
  readonly files: readonly PlannedFile[];
  /** The recording that knows the true place by the second. */
  readonly truth?: TrackFile;
  readonly options: AssessOptions;
}

/** What `assess` is to do, whether it was said in words or in a test file. */
export interface TestPlan {
  readonly name?: string;
  readonly route: Route;
  /** The receiver that alone the others are compared with, where the test file names one. */
  readonly baseline?: string;
  /** How the test file has receivers drawn. */
  readonly looks?: ReceiverLooks;
  /** What is drawn under the plans. */
  readonly surroundings?: GeoJSON;
  readonly runs: readonly PlannedRun[];
}
