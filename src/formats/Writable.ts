import { positionsOf, wrapLongitude } from '../geodesy';
import {
  checkChoice,
  checkCoordinates,
  checkNumber,
  checkRecording,
  InputError,
  type Line,
  type Recording,
  type Route,
} from '../model';
import { anonymise } from '../privacy';
import { corridorEdges, type WrittenLine } from '../route';
import { checkMatched, type Matched, onRoute } from './Matched';

/** What the writers write: a route, one recording or several, or a line. */
export type Writable = Line | readonly Recording[];

/** Options of every writer of recordings. */
export interface WriteOptions {
  /**
   * `strip`: without attributes and source, as {@link anonymise} has it, and of a matched recording only what lies between
   * joining the route and leaving it; `keep`: with attributes, and all of it. @defaultValue 'strip'
   */
  readonly identity?: 'strip' | 'keep';
  /** As {@link anonymise} has it. Several recordings count from the earliest of all. @defaultValue 'relative' */
  readonly times?: 'relative' | 'absolute' | 'none';
}

/** Options of the writers that write the corridor of a route. */
export interface WriteLineOptions extends WriteOptions {
  /**
   * `edges`: after a route, the left and right edge of the corridor of each section with a half width, as lines of their
   * own; `none`: the route alone. @defaultValue 'edges'
   */
  readonly corridor?: 'edges' | 'none';
}

/** What is to be written, checked: recordings as they may be shown, or a line, its longitudes within [-180, 180). */
export type Written =
  | { readonly kind: 'recordings'; readonly recordings: readonly Recording[]; readonly matched?: Matched }
  | { readonly kind: 'lines'; readonly lines: readonly WrittenLine[]; readonly route?: Route };

/**
 * Tells what is to be written and makes it ready.
 *
 * @throws {InputError} what is none of them; a position not on the globe; columns of different lengths
 */
export function prepareWritten(
  what: Writable,
  { identity = 'strip', times = 'relative', corridor = 'edges' }: WriteLineOptions,
  matched?: Matched,
): Written {
  checkChoice(corridor, 'options.corridor', ['edges', 'none']);
  checkChoice(identity, 'options.identity', ['strip', 'keep']);
  const list: readonly unknown[] = Array.isArray(what) ? what : [what];
  if (list.length > 0 && list.every(isRecording)) {
    list.forEach((recording, i) => {
      checkWritable(recording, Array.isArray(what) ? `recordings[${i}]` : 'recording');
    });
    if (matched !== undefined) checkMatched(matched, list);
    const shownOf = matched !== undefined && identity === 'strip' ? onRoute(list[0], matched) : undefined;
    const open = shownOf ? [shownOf.recording] : list;
    let since = Number.POSITIVE_INFINITY;
    for (const { time } of open) for (const value of time ?? []) if (value < since) since = value;
    const recordings = open.map((recording) => {
      const shown = anonymise(recording, { times, ...(Number.isFinite(since) ? { since } : {}) });
      return identity === 'keep' ? { ...shown, source: recording.source, attributes: recording.attributes } : shown;
    });
    const places = shownOf?.matched ?? matched;
    return { kind: 'recordings', recordings, ...(places ? { matched: places } : {}) };
  }
  if (matched !== undefined) checkMatched(matched, undefined);
  const given = positionsOf(what as Line);
  if (given.length < 2) {
    throw new InputError({ reason: 'too-few', argument: 'line', rule: 'a line of at least 2 positions', value: given });
  }
  const positions = given.map(([lon, lat, height], i) =>
    height === undefined || Number.isNaN(height)
      ? [wrapLongitude(lon), lat]
      : [wrapLongitude(lon), lat, checkNumber(height, `line[${i}] height`)],
  );
  const route = 'sections' in what && 'alongTrack' in what ? what : undefined;
  if (route === undefined) return { kind: 'lines', lines: [{ positions }] };
  const line = route.name === undefined ? { positions } : { name: route.name, positions };
  const edges = corridor === 'edges' ? corridorEdges(route) : [];
  return { kind: 'lines', lines: [line, ...edges], route };
}

function isRecording(value: unknown): value is Recording {
  return typeof value === 'object' && value !== null && 'gapBefore' in value && 'attributes' in value;
}

/** A recording can be made by hand: what is written must be readable. */
function checkWritable(recording: Recording, argument: string): void {
  checkRecording(recording, argument);
  const { name, lon, lat, gapBefore } = recording;
  if (typeof name !== 'string' || name.trim() === '') {
    throw new InputError({
      reason: 'wrong-type',
      argument: `${argument}.name`,
      rule: 'a string that is not blank',
      value: name,
    });
  }
  for (const key of ['lat', 'time', 'height', 'hdop', 'satellites', 'accuracy', 'gapBefore'] as const) {
    const column = recording[key];
    const infinite = column?.findIndex((value) => value === Infinity || value === -Infinity) ?? -1;
    if (infinite >= 0) checkNumber(column?.[infinite], `${argument}.${key}[${infinite}]`);
  }
  if (lon.length > 0 && gapBefore[0] !== 1) {
    throw new InputError({
      reason: 'out-of-range',
      argument: `${argument}.gapBefore[0]`,
      rule: '1',
      value: gapBefore[0],
    });
  }
  for (let i = 0; i < lon.length; i++) {
    if (!(Math.abs(lon[i]) <= 180 && Math.abs(lat[i]) <= 90)) checkCoordinates(lon[i], lat[i], `${argument} fix ${i}`);
  }
}
