import type { Recording, Route } from '../model';
import { draftRoute } from '../truth';
import { CommandError } from './CommandError';
import { sentenceOf } from './explain';
import { readTracks } from './readTracks';

/** A first line drawn through the recordings in these files. */
export async function readDraft(files: readonly string[]): Promise<Route> {
  const recordings: Recording[] = [];
  const names: string[] = [];
  for (const file of files) {
    // a zone moves no position
    for (const recording of await readTracks({ file, zone: 'Z' })) {
      recordings.push(recording);
      names.push(file);
    }
  }
  try {
    return draftRoute(recordings);
  } catch (error) {
    const told = sentenceOf(error).replace(/recordings\[(\d+)\]/g, (_, i) => names[Number(i)]);
    throw new CommandError(told, 1);
  }
}
