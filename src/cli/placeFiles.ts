import { stat } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import type { Route } from '../route';
import { openPool } from './openPool';
import { type PlacedFile, placeTracks } from './placeTracks';
import type { TrackFile } from './readTracks';

/**
 * Bytes from which threads pay. Reading and placing takes about 0.23 s of processor a megabyte of GPX; a thread costs 0.45 s to
 * load and warm up (36 recordings of 900 fixes, Node 20, one thread 1.6 s, two 2.6 s in all): two are even at 4 MB.
 */
const WORTH_THREADS = 4e6;

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
          return { leftOut: `${file.file}: ${(error as Error).message}` };
        } finally {
          progress(++done);
        }
      }),
    );
  } finally {
    await pool.close();
  }
}
