import { readFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { readRecordings } from '../formats';
import { InputError, type Recording } from '../model';
import { cannot } from './CommandError';
import { explain } from './explain';

/** A file with recordings, and how to read it. */
export interface TrackFile {
  readonly file: string;
  /** What the recording is called; the file's own name without its endings where left out. */
  readonly name?: string;
  readonly zone?: string;
  /** Which track of several. */
  readonly track?: string;
}

/** The recordings in a file; the one called `track` where that is given. */
export async function readTracks({ file, name, zone, track }: TrackFile): Promise<Recording[]> {
  const called = name ?? basename(file).replace(/(?<=.)(\.[a-z]\w{1,6}){1,2}$/i, '');
  try {
    const data = await readFile(file);
    const options = zone === undefined ? {} : { zone };
    if (track === undefined) return await readRecordings(data, { ...options, name: called });
    const tracks = await readRecordings(data, options);
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
