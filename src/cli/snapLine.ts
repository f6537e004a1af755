import { snap } from '../snap';
import { cannot } from './CommandError';
import type { LineTask } from './LineTask';
import { lineWords } from './lineWords';
import type { RouteShelf } from './RouteShelf';
import { readTracks } from './readTracks';

/** What a line of `snap --ndjson` asks for: the columns of one recording. */
export async function snapLine(
  asked: Readonly<Record<string, unknown>>,
  { number, zone: usual }: LineTask,
  routes: RouteShelf,
) {
  const told = ['receiver', 'placement', 'run', 'zone'] as const;
  const {
    route: file,
    recording: name,
    zone = usual,
  } = lineWords(asked, ['route', 'recording'], told, `line ${number}`);
  const route = await routes.get(file);
  const recordings = await readTracks({ file: name, zone }, 'of a line');
  if (recordings.length !== 1) throw cannot(name, `expected one recording, found ${recordings.length}`);
  const [recording] = recordings;
  const { alongTrack, crossTrack, distance, segment, state, confidence, ambiguous } = snap(route, recording);
  return {
    alongTrack: rounded(alongTrack),
    crossTrack: rounded(crossTrack),
    distance: rounded(distance),
    segment: Array.from(segment),
    state,
    confidence: rounded(confidence),
    ambiguous,
    issues: recording.issues,
  };
}

/** To the tenth of a millimetre; null for NaN. */
function rounded(column: ArrayLike<number>): (number | null)[] {
  return Array.from(column, (value) => (Number.isNaN(value) ? null : Math.round(value * 1e4) / 1e4));
}
