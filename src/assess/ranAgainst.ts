import type { PlacedRecording } from './PlacedRecording';

/** Whether a recording runs against the route, so that nobody knows which side of it is which. */
export function ranAgainst({ snapped }: PlacedRecording): boolean {
  return snapped.issues.some(({ reason }) => reason === 'against-route');
}
