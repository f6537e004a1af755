import type { Recording, Route, Snapped } from '../model';
import { snap } from '../snap';
import { explain } from './explain';
import { interruptible } from './interruptible';
import { readTracks, type TrackFile } from './readTracks';

/** A recording read from a file and placed on the route. */
interface PlacedTrack {
  readonly recording: Recording;
  readonly snapped: Snapped;
}

/** What became of one file: its recordings, or why it was left out. */
export type PlacedFile = { readonly tracks: readonly PlacedTrack[] } | { readonly leftOut: string };

/** Reads a file and places what is in it; never throws, so that one bad file leaves the others alone. */
export async function placeTracks(route: Route, file: TrackFile): Promise<PlacedFile> {
  try {
    const recordings = await readTracks(file);
    return {
      tracks: await interruptible(() =>
        recordings.map((recording) => ({ recording, snapped: snap(route, recording) })),
      ),
    };
  } catch (error) {
    return { leftOut: explain(error, file.file).message.replace(`${file.file}: `, '') };
  }
}
