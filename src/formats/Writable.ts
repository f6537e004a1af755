import { positionsOf, wrapLongitude } from '../geodesy';
import { checkChoice, checkNumber, checkRoute, InputError, type Line, type Recording, type Route } from '../model';
import { anonymise } from '../privacy';
import { corridorEdges, type WrittenLine } from '../route';
import { checkRepeats } from './checkRepeats';
import { checkWritable } from './checkWritable';
import { checkMatched, type Matched, onRoute } from './Matched';

/** What the writers write: a route, one recording or several, or a line. */
export type Writable = Line | Iterable<Recording>;

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
  | WrittenLines;

/** A line, and where it is a route the edges of its corridor after it. */
export interface WrittenLines {
  readonly kind: 'lines';
  readonly lines: readonly WrittenLine[];
  readonly route?: Route;
}

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
  // a hole of a sparse array is none of either
  const several = typeof what === 'object' && what !== null && Symbol.iterator in what;
  const list: readonly unknown[] = several ? Array.from(what as Iterable<unknown>) : [what];
  if (list.length > 0 && list.every(isRecording)) {
    const nameOf = (i: number) => (several ? `recordings[${i}]` : 'recording');
    list.forEach((recording, i) => {
      checkWritable(recording, identity, nameOf(i));
    });
    if (matched !== undefined) checkMatched(matched, list);
    const shownOf = matched !== undefined && identity === 'strip' ? onRoute(list[0], matched) : undefined;
    const open = shownOf ? [shownOf.recording] : list;
    let since = Number.POSITIVE_INFINITY;
    for (const { time } of open) for (const value of time ?? []) if (value < since) since = value;
    const recordings = open.map((recording, i) => {
      const shown = anonymise(recording, { times, ...(Number.isFinite(since) ? { since } : {}) });
      // here, as times may come to be the same only by the shift
      checkRepeats(shown, nameOf(i));
      return identity === 'keep' ? { ...shown, source: recording.source, attributes: recording.attributes } : shown;
    });
    const places = shownOf?.matched ?? matched;
    return { kind: 'recordings', recordings, ...(places ? { matched: places } : {}) };
  }
  if (matched !== undefined) checkMatched(matched, undefined);
  const given = positionsOf((several ? list : what) as Line);
  if (given.length < 2) {
    throw new InputError({ reason: 'too-few', argument: 'line', rule: 'a line of at least 2 positions', value: given });
  }
  const positions = given.map((position, i) => {
    const [longitude, lat, height] = position;
    const lon = wrapLongitude(longitude);
    if (lon === longitude && position.length === 2) return position;
    return height === undefined || Number.isNaN(height)
      ? [lon, lat]
      : [lon, lat, checkNumber(height, `line[${i}] height`)];
  });
  const route = 'sections' in what && 'alongTrack' in what ? what : undefined;
  if (route === undefined) return { kind: 'lines', lines: [{ positions }] };
  checkRoute(route);
  const line = route.name === undefined ? { positions } : { name: route.name, positions };
  const edges = corridor === 'edges' ? corridorEdges(route) : [];
  return { kind: 'lines', lines: [line, ...edges], route };
}

function isRecording(value: unknown): value is Recording {
  return typeof value === 'object' && value !== null && 'gapBefore' in value && 'attributes' in value;
}
