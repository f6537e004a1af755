import type { Recording, Route, Snapped } from '../model';

const head = 'fix,time (s),along track (m),cross track (m; right positive),distance (m),section,state,confidence';

/**
 * One row a fix as CSV (RFC 4180). Places are relative to the route and times to the first one: what may be passed on.
 */
export function snappedTable(route: Route, { time }: Recording, snapped: Snapped): string {
  const start = time?.find((value) => !Number.isNaN(value)) ?? 0;
  const number = (value: number | undefined, digits: number) =>
    value === undefined || Number.isNaN(value) ? '' : String(Number(value.toFixed(digits)));
  const rows = snapped.state.map((state, i) => {
    const at = snapped.alongTrack[i];
    const section = route.sections.find(({ from, to }) => at >= from && (at < to || at === route.length));
    return [
      i,
      number(time && (time[i] - start) / 1000, 3),
      number(at, 3),
      number(snapped.crossTrack[i], 3),
      number(snapped.distance[i], 3),
      quoted(section?.name ?? ''),
      state,
      number(snapped.confidence[i], 3),
    ].join(',');
  });
  return `${[head, ...rows].join('\r\n')}\r\n`;
}

function quoted(text: string): string {
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
