import { unzipSync } from 'fflate';
import type { GivenFile } from './Task';

/** Bytes that an archive may hold when it is unpacked: of what is larger than that no browser would be left. */
const MOST_BYTES = 1e9;
const MOST_FILES = 10_000;

/**
 * The files of a zip archive by their paths in it; undefined for what is none, KMZ included, which is one recording.
 *
 * @throws {Error} for an archive too large, or damaged
 */
export function unzipFiles(data: Uint8Array, path: string): GivenFile[] | undefined {
  if (data[0] !== 0x50 || data[1] !== 0x4b || data[2] !== 3 || data[3] !== 4) return undefined;
  if (/\.kmz$/i.test(path)) return undefined;
  let bytes = 0;
  let files = 0;
  let isKmz = false;
  const wanted = ({ name, originalSize }: { name: string; originalSize: number }) => {
    isKmz ||= name === 'doc.kml';
    // folders, and what systems add beside files
    if (name.endsWith('/') || /(?:^|\/)(?:\.|__MACOSX)/.test(name)) return false;
    bytes += originalSize;
    files++;
    if (bytes > MOST_BYTES || files > MOST_FILES) throw new Error('The archive holds more than a page can open.');
    return true;
  };
  const entries = unzipSync(data, { filter: wanted });
  if (isKmz) return undefined;
  return Object.entries(entries).map(([name, content]) => ({ path: name, file: new Blob([content as BlobPart]) }));
}
