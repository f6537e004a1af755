import type { Recording } from '../model';
import { cannot } from './CommandError';
import { readTracks, type TrackFile } from './readTracks';

/** The one recording in a file that knows the true place. */
export async function readTruth(truth: TrackFile, alone?: Parameters<typeof readTracks>[1]): Promise<Recording> {
  const tracks = await readTracks(truth, alone);
  if (tracks.length === 1) return tracks[0];
  throw cannot(truth.file, `expected one recording as the truth, found ${tracks.length}`);
}
