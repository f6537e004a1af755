import type { PlacedRecording } from './PlacedRecording';

/** A recording under its name, placed. */
export interface NamedPlaced {
  readonly name: string;
  readonly placed: PlacedRecording;
}
