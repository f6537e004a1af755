import { readFileSync, statSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { readRecordings } from '../formats';
import { InputError, type Recording } from '../model';
import { cannot } from './CommandError';
import { explain } from './explain';
import { interruptible } from './interruptible';
import { readBytes } from './readBytes';
import { looksLikeJson, readJson } from './readJson';

/** A file with recordings, and how to read it. */
export interface TrackFile {
  readonly file: string;
  /** What is in it, where it was read already. */
  readonly data?: Buffer;
  /** What the recording is called; the file's own name without its endings where left out. */
  readonly name?: string;
  readonly zone?: string;
  /** Which track of several. */
  readonly track?: string;
}

/**
 * The recordings in a file; the one called `track` where that is given.
 *
 * @param alone - whether it is all that is asked, and an interruption ends it; between lines one is heard, and told
 */
export async function readTracks(
  { file, data: given, name, zone, track }: TrackFile,
  alone: 'interruptible' | 'of a line' = 'interruptible',
): Promise<Recording[]> {
  const called =
    name ??
    basename(file)
      .replace(/(?<=.)(\.[a-z]\w{1,6}){1,2}$/i, '')
      .replace(/\s+/g, ' ');
  try {
    const data = given ?? (await (alone === 'of a line' ? lineBytes(file) : readBytes(file)));
    if (data.length === 0) throw cannot(file, 'an empty file');
    refuseOthers(data, file);
    const options = zone === undefined ? {} : { zone };
    const read = (named: { readonly name?: string }) => readRecordings(data, { ...options, ...named });
    const reading = (named: { readonly name?: string }) =>
      alone === 'of a line' ? read(named) : interruptible(() => read(named));
    if (track === undefined) return await reading({ name: called });
    const tracks = await reading({});
    const wanted = tracks.filter((recording) => recording.name === track);
    if (wanted.length !== 1) {
      const names = tracks.map((recording) => `"${recording.name}"`).join(', ');
      throw cannot(file, `${wanted.length === 0 ? 'no' : 'more than one'} track "${track}" among ${names}`);
    }
    return [{ ...wanted[0], name: called }];
  } catch (error) {
    if (error instanceof InputError && error.argument === 'options.zone') {
      throw cannot(file, error.message.replace('options.zone', 'a zone (--zone, or "zone" in a test file or line)'));
    }
    throw explain(error, file);
  }
}

/** At once, in half the time, but for a pipe, which may be waited for. */
const lineBytes = (file: string) => (statSync(file).isFile() ? readFileSync(file) : readFile(file));

/** Refuses what is no recording but a document of our own, given in its place. */
function refuseOthers(data: Buffer, file: string): void {
  // most are XML or tables, and not read twice
  if (
    !looksLikeJson(
      data
        .toString('utf8', 0, 100)
        .replace(/^\ufeff/, '')
        .trimStart() || '{',
    )
  )
    return;
  const text = data[0] < 0x80 || data[0] === 0xef ? data.toString('utf8') : '';
  if (!looksLikeJson(text) || !/"(?:steps|runs|recipe|section)"/.test(text)) return;
  const { steps, runs, recipe, features } = readJson(text, file) as Record<string, unknown>;
  const isDrawn = (feature: { properties?: { section?: unknown } | null } | null) =>
    feature?.properties?.section !== undefined;
  if (Array.isArray(runs)) throw cannot(file, 'a test file, not a recording');
  if (Array.isArray(steps) || recipe !== undefined || (Array.isArray(features) && features.some(isDrawn))) {
    throw cannot(file, 'a route, not a recording: the ROUTE comes first');
  }
}
