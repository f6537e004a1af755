import type { SnapIssue } from '../model';

/** What is said of a recording that runs against the route. */
export function againstRoute(fixes: number): SnapIssue {
  const message =
    'It was recorded against the line’s direction: is the line drawn backwards? Right and left are those of the line, and say nothing of the side it was on.';
  return { reason: 'against-route', message, fixes };
}
