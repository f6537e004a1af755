import { stat } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import type { Route } from '../model';
import { openPool } from './openPool';
import { type PlacedFile, placeTracks } from './placeTracks';
import type { TrackFile } from './readTracks';

/**
 * Bytes from which threads pay. Each costs about 0.65 s of processor time to load and warm up. Seconds of waiting on two
 * processors, recordings of 7 700 fixes in 0.74 MB of GPX each, Node 20, medians of three: 8 of them assessed 3.0 on one
 * thread and 3.3 on two, 32 of them 9.0 and 9.0; 160 of them placed by `snap --ndjson` 10.3 and 7.4.
 */
const WORTH_THREADS = 24e6;

/** What became of each file, in order; over worker threads where there is enough to do. */
export async function placeFiles(
  route: Route,
  files: readonly TrackFile[],
  threads: number | undefined,
  progress: (done: number) => void,
): Promise<PlacedFile[]> {
  const sizes = await Promise.all(
    files.map(({ file }) =>
      stat(file).then(
        ({ size }) => size,
        () => 0,
      ),
    ),
  );
  const bytes = sizes.reduce((sum, size) => sum + size, 0);
  const wanted = threads ?? (files.length > 4 && bytes > WORTH_THREADS ? availableParallelism() : 1);
  let done = 0;
  progress(done);
  if (wanted === 1) {
    const placed: PlacedFile[] = [];
    for (const file of files) {
      placed.push(await placeTracks(route, file));
      progress(++done);
    }
    return placed;
  }
  const pool = openPool(Math.min(wanted, files.length));
  try {
    return await Promise.all(
      files.map(async (file): Promise<PlacedFile> => {
        try {
          return await pool.run<PlacedFile>('place', { route, file });
        } catch (error) {
          return { leftOut: (error as Error).message };
        } finally {
          progress(++done);
        }
      }),
    );
  } finally {
    await pool.close();
  }
}
