import { readTracks } from './readTracks';
import { tell } from './tell';

/** Says so where the file of a route has times, as a recording has: the other way round, a receiver would be the judge. */
export async function doubtRoute(file: string, data: Buffer): Promise<void> {
  const recordings = await readTracks({ file, data, zone: 'Z' }).catch(() => []);
  if (recordings.length !== 1 || !recordings[0].time?.some(Number.isFinite)) return;
  tell(`${file}: taken as the line travelled, though it has times as a recording has; the ROUTE comes first`);
}
