import { parentPort } from 'node:worker_threads';
import type { Route } from '../model';
import { answerLine } from './answerLine';
import { sentenceOf } from './explain';
import type { LineTask } from './LineTask';
import type { Reply } from './openPool';
import { placeTracks } from './placeTracks';
import { RouteShelf } from './RouteShelf';
import type { TrackFile } from './readTracks';

// What a worker thread of the pool can be asked to do. Routes stay on its own shelf from one line to the next.
const routes = new RouteShelf();
const offered = {
  line: (task: LineTask) => answerLine(task, routes),
  place: ({ route, file }: { route: Route; file: TrackFile }) => placeTracks(route, file),
};

parentPort?.on('message', async ({ name, task }: { name: keyof typeof offered; task: never }) => {
  const reply = await offered[name](task).then(
    (answer): Reply => ({ answer }),
    (error): Reply => ({ fault: sentenceOf(error) }),
  );
  parentPort!.postMessage(reply);
});
