import { InputError } from '../errors';
import type { Route, Section } from '../route';
import type { Written } from './Writable';
import { writeDecimal } from './writeDecimal';

/** Where the fixes of a recording lie on a route: what `snap` gives, one entry a fix. */
export interface Matched {
  readonly route: Route;
  readonly snapped: {
    readonly alongTrack: Float64Array;
    readonly crossTrack: Float64Array;
    readonly distance: Float64Array;
    readonly state: readonly string[];
  };
}

/** The section of a route at an along-track, in metres; `undefined` outside all and where the along-track is NaN. */
export function sectionAt({ sections }: Route, alongTrack: number): Section | undefined {
  const inside = sections.find(({ from, to }) => alongTrack >= from && alongTrack < to);
  // the last point of the last section belongs to it
  return inside ?? [...sections].reverse().find(({ from, to }) => alongTrack >= from && alongTrack === to);
}

/**
 * Refuses what does not belong to the one recording that is written.
 *
 * @throws {InputError} `misplaced` or `wrong-type`
 */
export function checkMatched({ snapped }: Matched, written: Written): void {
  if (written.kind !== 'recordings' || written.recordings.length !== 1) {
    throw new InputError({
      reason: 'misplaced',
      argument: 'options.matched',
      rule: 'given with one recording',
      value: written.kind === 'lines' ? 'a line' : written.recordings.length,
    });
  }
  const n = written.recordings[0].lon.length;
  for (const key of ['alongTrack', 'crossTrack', 'distance', 'state'] as const) {
    if (snapped?.[key]?.length === n) continue;
    throw new InputError({
      reason: 'wrong-type',
      argument: `options.matched.snapped.${key}`,
      rule: `of the recording's ${n} fixes`,
      value: snapped?.[key],
    });
  }
}

/** The columns that a table has for matched fixes. */
export function matchedColumns(
  matched: Matched,
  written: Written,
): { readonly header: readonly string[]; readonly cells: (fix: number) => string[] } {
  checkMatched(matched, written);
  const { alongTrack, crossTrack, distance, state } = matched.snapped;
  const number = (value: number) => (Number.isNaN(value) ? '' : writeDecimal(value));
  return {
    header: ['along-track (m)', 'cross-track (m; right positive)', 'distance (m)', 'section', 'state'],
    cells: (i) => [
      number(alongTrack[i]),
      number(crossTrack[i]),
      number(distance[i]),
      sectionAt(matched.route, alongTrack[i])?.name ?? '',
      state[i],
    ],
  };
}
