import type { Passage } from '../assess';
import type { Strand } from './reportModel';

/** The stays of a recording in impossible areas, and outside every allowed one. */
export function passagesOf({ assessment, recording }: Strand): readonly Passage[] {
  return assessment.passages.filter((passage) => passage.recording === recording.name);
}
