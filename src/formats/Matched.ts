import {
  checkColumns,
  checkLength,
  InputError,
  type Recording,
  type Route,
  type Snapped,
  sectionFinder,
} from '../model';
import { keepFixes } from '../privacy';

/** Where the fixes of a recording lie on a route. */
export interface Matched {
  readonly route: Route;
  /** What `snap` gives for this route and recording: one entry a fix. */
  readonly snapped: Pick<Snapped, 'alongTrack' | 'crossTrack' | 'distance' | 'state'>;
  /** The number of each fix, where some were left out. @defaultValue counted from 0 */
  readonly fixes?: ArrayLike<number>;
}

/**
 * Refuses what does not belong to the one recording that is written.
 *
 * @param recordings - `undefined` where a line is written
 * @throws {InputError} `misplaced` or `wrong-type`
 */
export function checkMatched(matched: Matched, recordings: readonly Recording[] | undefined): void {
  if (recordings?.length !== 1) {
    throw new InputError({
      reason: 'misplaced',
      argument: 'options.matched',
      rule: 'given with one recording',
      value: recordings === undefined ? 'a line' : recordings.length,
    });
  }
  const { snapped, fixes }: Matched = matched ?? {};
  const argument = 'options.matched.snapped';
  checkColumns(snapped, argument, 'what snap gives', ['alongTrack', 'crossTrack', 'distance', 'state']);
  checkLength(snapped.alongTrack, `${argument}.alongTrack`, recordings[0].lon.length, 'the recording');
  if (fixes !== undefined) checkLength(fixes, 'options.matched.fixes', recordings[0].lon.length, 'the recording');
}

/** The recording and its places from where it joined the route to where it left it: what may be shown. */
export function onRoute(
  recording: Recording,
  { route, snapped, fixes }: Matched,
): { recording: Recording; matched: Matched } {
  const kept = Array.from(snapped.state.keys()).filter((i) => snapped.state[i] === 'on' || snapped.state[i] === 'off');
  const pick = (column: Float64Array) => Float64Array.from(kept, (i) => column[i]);
  const places = {
    alongTrack: pick(snapped.alongTrack),
    crossTrack: pick(snapped.crossTrack),
    distance: pick(snapped.distance),
    state: kept.map((i) => snapped.state[i]),
  };
  const { name, issues, source, attributes } = recording;
  return {
    recording: { name, issues, source, attributes, ...keepFixes(recording, kept) },
    matched: { route, snapped: places, fixes: kept.map((i) => fixes?.[i] ?? i) },
  };
}

/** The columns that a table has for matched fixes. */
export function matchedColumns(matched: Matched): {
  readonly header: readonly string[];
  readonly cells: (fix: number) => (string | number)[];
} {
  const { alongTrack, crossTrack, distance, state } = matched.snapped;
  const sectionsAt = sectionFinder(matched.route);
  return {
    header: ['along-track (m)', 'cross-track (m; right positive)', 'distance (m)', 'section', 'state'],
    cells: (i) => [alongTrack[i], crossTrack[i], distance[i], sectionsAt(alongTrack[i]).at(0)?.name ?? '', state[i]],
  };
}
