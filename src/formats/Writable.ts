import type { Position } from 'geojson';
import { wrapLongitude } from '../geodesy';
import { checkCoordinates, checkNumber, checkPosition, InputError, type Recording, type Route } from '../model';
import { anonymise } from '../privacy';
import { corridorEdges, type WrittenLine } from '../route';
import { checkMatched, type Matched, onRoute } from './Matched';

/** What the writers write: a route, one recording or several, or a line. */
export type Writable = Route | Recording | readonly Recording[] | readonly Position[];

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
  if (corridor !== 'edges' && corridor !== 'none') {
    throw new InputError({
      reason: 'wrong-type',
      argument: 'options.corridor',
      rule: "'edges' or 'none'",
      value: corridor,
    });
  }
  if (identity !== 'strip' && identity !== 'keep') {
    throw new InputError({
      reason: 'wrong-type',
      argument: 'options.identity',
      rule: "'strip' or 'keep'",
      value: identity,
    });
  }
  const list: readonly unknown[] = Array.isArray(what) ? what : [what];
  if (list.length > 0 && list.every(isRecording)) {
    list.forEach((recording, i) => {
      checkRecording(recording, Array.isArray(what) ? `recordings[${i}]` : 'recording');
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
  const route = typeof what === 'object' && what !== null && 'lon' in what ? (what as Route) : undefined;
  if (route === undefined && !Array.isArray(what)) {
    throw new InputError({
      reason: 'wrong-type',
      argument: 'what',
      rule: 'a route, recordings or a line of positions',
      value: what,
    });
  }
  const given = route ? Array.from(route.lon, (lon, i) => [lon, route.lat[i]]) : (what as readonly Position[]);
  if (given.length < 2) {
    throw new InputError({ reason: 'too-few', argument: 'line', rule: 'of at least 2 positions', value: given });
  }
  const positions = given.map((position, i) => {
    checkPosition(position, `line[${i}]`);
    const [lon, lat, height] = position;
    if (height === undefined || Number.isNaN(height)) return [wrapLongitude(lon), lat];
    return [wrapLongitude(lon), lat, checkNumber(height, `line[${i}] height`)];
  });
  if (route === undefined) return { kind: 'lines', lines: [{ positions }] };
  const line = route.name === undefined ? { positions } : { name: route.name, positions };
  // a recording is no route, but any columns of positions can be written as a line
  const edges = corridor === 'edges' && Array.isArray(route.sections) ? corridorEdges(route) : [];
  return { kind: 'lines', lines: [line, ...edges], route };
}

function isRecording(value: unknown): value is Recording {
  return typeof value === 'object' && value !== null && 'gapBefore' in value && 'attributes' in value;
}

/** A recording can be made by hand: what is written must be readable. */
function checkRecording(recording: Recording, argument: string): void {
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
    if (column !== undefined && column.length !== lon.length) {
      throw new InputError({
        reason: 'wrong-type',
        argument: `${argument}.${key}`,
        rule: `as long as lon, ${lon.length}`,
        value: column.length,
      });
    }
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
