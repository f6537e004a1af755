import { hashesAlong } from '../model';
import type { Entry } from './testEntries';

/** Hashes of a recording's positions, and of all of it with how it was made. */
export interface EntryHashes {
  readonly positions: string;
  readonly input: string;
}

/** Both at once, as each fix takes its time. */
export function entryHashes({ recording, receiver, placement, run }: Entry): EntryHashes {
  const { lon, lat, time, gapBefore } = recording;
  const hashes = hashesAlong([lon, lat, time ?? [], gapBefore, JSON.stringify([receiver, placement, run])]);
  return { positions: hashes[1], input: hashes[4] };
}
