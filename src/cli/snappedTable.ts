import { csvTable } from '../formats';
import { type Recording, type Route, type Snapped, sectionAt } from '../model';

const head = [
  'fix',
  'time (s)',
  'along track (m)',
  'cross track (m; right positive)',
  'distance (m)',
  'section',
  'state',
  'confidence',
];

/**
 * One row a fix as CSV (RFC 4180). Places are relative to the route and times to the first one: what may be passed on.
 */
export function snappedTable(route: Route, { time }: Recording, snapped: Snapped): string {
  const start = time?.find((value) => !Number.isNaN(value)) ?? 0;
  const rounded = (value: number) => Number(value.toFixed(3));
  const rows = snapped.state.map((state, i) => [
    i,
    time === undefined ? null : rounded((time[i] - start) / 1000),
    rounded(snapped.alongTrack[i]),
    rounded(snapped.crossTrack[i]),
    rounded(snapped.distance[i]),
    sectionAt(route, snapped.alongTrack[i])?.name ?? null,
    state,
    rounded(snapped.confidence[i]),
  ]);
  return csvTable([head, ...rows]);
}
