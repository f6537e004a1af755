import { assess } from '../assess';
import { InputError } from '../model';
import { snap } from '../snap';
import { CommandError, cannot } from './CommandError';
import { sentenceOf } from './explain';
import type { RouteShelf } from './RouteShelf';
import { readJson } from './readJson';
import { readTracks } from './readTracks';

/** One line of `--ndjson` in. */
export interface LineTask {
  readonly command: 'assess' | 'snap';
  readonly text: string;
  /** Counted from 1. */
  readonly number: number;
  /** Zone of times that state none, unless the line has its own. */
  readonly zone?: string;
}

/** Keys of the user's own come back with the answer; so deep they may be nested. */
const MOST_NESTED = 100;

const ownKeys = ['route', 'recording', 'receiver', 'placement', 'run', 'zone'] as const;
type Request = { readonly [key in (typeof ownKeys)[number]]?: string };

/** The line that answers a line: what was asked with what was found, or with `error`. Never throws. */
export async function answerLine({ command, text, number, zone }: LineTask, routes: RouteShelf): Promise<string> {
  let asked: object = { line: number };
  try {
    asked = checkRequest(readJson(text, `line ${number}`), number);
    const found = await (command === 'assess' ? assessRequest : snapRequest)({ zone, ...asked } as Request, routes);
    return JSON.stringify({ ...asked, ...found });
  } catch (error) {
    const reason = error instanceof InputError ? error.reason : error instanceof CommandError ? 'unreadable' : 'failed';
    return JSON.stringify({ ...asked, error: { reason, message: sentenceOf(error) } });
  }
}

function checkRequest(value: unknown, number: number): object {
  const place = `line ${number}`;
  if (typeof value !== 'object' || value === null || Array.isArray(value)) throw cannot(place, 'not a JSON object');
  for (const key of ownKeys) {
    const word = (value as Record<string, unknown>)[key];
    const needed = key === 'route' || key === 'recording';
    if (word === undefined && !needed) continue;
    if (typeof word !== 'string' || word === '') throw cannot(place, `"${key}" must be a non-empty string`);
  }
  if (isDeep(value)) throw cannot(place, `nested more than ${MOST_NESTED} deep`);
  return value;
}

/** Whether objects and arrays stand in each other more than {@link MOST_NESTED} deep: they couldn't be written out again. */
function isDeep(value: object): boolean {
  let level: object[] = [value];
  for (let depth = 0; level.length > 0; depth++) {
    if (depth > MOST_NESTED) return true;
    level = level.flatMap((one): object[] =>
      Object.values(one).filter((inner) => inner !== null && typeof inner === 'object'),
    );
  }
  return false;
}

async function assessRequest({ route: file, recording, receiver, placement, run, zone }: Request, routes: RouteShelf) {
  const route = await routes.get(file!);
  const recordings = await readTracks({ file: recording!, zone });
  const entries = recordings.map((read) => ({ recording: read, receiver, placement, run }));
  const { rows, excursions, warnings, method } = assess(route, entries);
  return { rows, excursions, warnings, issues: recordings.flatMap(({ issues }) => issues), hash: method.hash };
}

async function snapRequest({ route: file, recording, zone }: Request, routes: RouteShelf) {
  const route = await routes.get(file!);
  const recordings = await readTracks({ file: recording!, zone });
  if (recordings.length !== 1) {
    throw cannot(recording!, `expected one recording, found ${recordings.length}`);
  }
  const { alongTrack, crossTrack, distance, segment, state, confidence, ambiguous } = snap(route, recordings[0]);
  return {
    alongTrack: rounded(alongTrack),
    crossTrack: rounded(crossTrack),
    distance: rounded(distance),
    segment: Array.from(segment),
    state,
    confidence: rounded(confidence),
    ambiguous,
    issues: recordings[0].issues,
  };
}

/** To the tenth of a millimetre; null for NaN. */
function rounded(column: ArrayLike<number>): (number | null)[] {
  return Array.from(column, (value) => (Number.isNaN(value) ? null : Math.round(value * 1e4) / 1e4));
}
