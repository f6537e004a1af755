import type { Route } from '../model';
import { answerLine, type LineTask } from './answerLine';
import { type PlacedFile, placeTracks } from './placeTracks';
import { RouteShelf } from './RouteShelf';
import type { TrackFile } from './readTracks';

// What a worker thread of the pool can be asked to do. Routes stay on its own shelf from one line to the next.
const routes = new RouteShelf();

export const line = (task: LineTask): Promise<string> => answerLine(task, routes);

export const place = ({ route, file }: { route: Route; file: TrackFile }): Promise<PlacedFile> =>
  placeTracks(route, file);
