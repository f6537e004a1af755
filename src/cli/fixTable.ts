import { type CarriedRecording, type PlacedFixes, placedFixes } from '../assess';
import { csvTable } from '../formats';
import { type Route, sectionFinder } from '../model';
import type { CommandArguments } from './CommandArguments';
import { shownFixes } from './shownFixes';

/** The recordings of one run, and how they are placed. */
export interface CarriedRun {
  readonly name?: string;
  readonly entries: readonly CarriedRecording[];
  readonly pace?: 'shared' | 'apart';
}

/**
 * One row for each fix on the route, as CSV (RFC 4180): when, by which receiver, in which run, where, and its place as it was
 * judged. Times count from the first of these fixes in the run, or are in UTC where times of day are asked for.
 */
export function fixTable(route: Route, runs: readonly CarriedRun[], times: CommandArguments['times']): string {
  const head = ['receiver', 'run', 'longitude', 'latitude', 'along track (m)', 'cross track (m; right positive)'];
  const rows = runs.flatMap(({ name: run, entries, pace }) => {
    const { route: named, placed } = placedFixes(route, entries, pace);
    const shown = placed.map((one) => ({ ...one, fixes: shownFixes(named, one.recording, one.snapped) }));
    const begun = shown.flatMap(({ recording: { time }, fixes }) =>
      fixes.map((i) => time?.[i] ?? Number.NaN).filter(Number.isFinite),
    );
    const origin = begun.reduce((first, value) => Math.min(first, value), Number.POSITIVE_INFINITY);
    const sectionsAt = sectionFinder(named);
    return shown.flatMap((one) => one.fixes.map((i) => fixRow(sectionsAt, one, i, run ?? null, times, origin)));
  });
  return csvTable([[times === 'absolute' ? 'time (UTC)' : 'time (s)', ...head, 'section', 'state'], ...rows]);
}

function fixRow(
  sectionsAt: ReturnType<typeof sectionFinder>,
  { receiver, name, recording, snapped }: PlacedFixes,
  i: number,
  run: string | null,
  times: CommandArguments['times'],
  origin: number,
): (string | number | null)[] {
  const time = recording.time?.[i] ?? Number.NaN;
  const rounded = (value: number) => (Number.isFinite(value) ? Number(value.toFixed(3)) : null);
  const utc = () => (Number.isFinite(time) ? new Date(time).toISOString() : null);
  return [
    times === 'absolute' ? utc() : rounded((time - origin) / 1000),
    receiver ?? name,
    run,
    recording.lon[i],
    recording.lat[i],
    rounded(snapped.alongTrack[i]),
    rounded(snapped.crossTrack[i]),
    sectionsAt(snapped.alongTrack[i]).at(0)?.name ?? null,
    snapped.state[i],
  ];
}
