import type { OffRouteEpisode } from './Assessment';

/** Metres that the places at which recordings left the route and came back may differ: errors along it, of both. */
const SLACK = 30;

/** Whether two recordings were away from the route at the same place; one that goes out and back may have no length there. */
export function awayTogether(
  one: Pick<OffRouteEpisode, 'from' | 'to'>,
  other: Pick<OffRouteEpisode, 'from' | 'to'>,
): boolean {
  const apart = Math.max(Math.min(one.from, one.to), Math.min(other.from, other.to));
  return apart - Math.min(Math.max(one.from, one.to), Math.max(other.from, other.to)) <= SLACK;
}
