import { finish, type Recording, type Route } from '../model';
import type { Assessment } from './Assessment';
import type { AssessOptions } from './AssessOptions';
import { assessSteps } from './assessSteps';
import type { CarriedRecording } from './testEntries';

/** What {@link assess} finds, but for what pictures are drawn from, which is empty: no report can be made of it. */
export function assessFigures(
  route: Route,
  recordings: Iterable<Recording | CarriedRecording>,
  options: AssessOptions = {},
): Assessment {
  return finish(assessSteps(route, recordings, options, 'rows and pairs'));
}
