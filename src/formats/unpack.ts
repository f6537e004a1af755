import { Gunzip, type UnzipFileInfo, unzipSync } from 'fflate';
import { InputError } from '../errors';

/** Longest document that is read, packed or unpacked, in bytes. A longer text can't be held as one string everywhere. */
export const MAX_BYTES = 256 * 2 ** 20;

/** Deflate grows its input 1032-fold at most, so that a piece of this size stays far below the limit. */
const PIECE = 16_384;

const tooLarge = (value: number) =>
  new InputError({ reason: 'too-large', argument: 'data', rule: `at most ${MAX_BYTES} bytes`, value });

/** Whether the bytes begin as a gzip file does. RFC 1952, 2.3.1. */
export const isGzip = (bytes: Uint8Array): boolean => bytes[0] === 0x1f && bytes[1] === 0x8b;

/** Whether the bytes begin as a zip archive does. */
export const isZip = (bytes: Uint8Array): boolean => bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 3;

/**
 * What a gzip file holds.
 *
 * @throws {InputError} `too-large`, or `unreadable` when it is damaged or cut off
 */
export function gunzip(bytes: Uint8Array): Uint8Array {
  const pieces: Uint8Array[] = [];
  let size = 0;
  let member = 0;
  const stream = new Gunzip((piece) => {
    size += piece.length;
    if (size > MAX_BYTES) throw tooLarge(size);
    pieces.push(piece);
  });
  stream.onmember = () => {
    member = size;
  };
  try {
    for (let at = 0; at < bytes.length; at += PIECE) {
      stream.push(bytes.subarray(at, at + PIECE), at + PIECE >= bytes.length);
    }
  } catch (error) {
    if (error instanceof InputError) throw error;
    size = -1;
  }
  const whole = new Uint8Array(Math.max(size, 0));
  if (size >= 0) {
    let at = 0;
    for (const piece of pieces) {
      whole.set(piece, at);
      at += piece.length;
    }
  }
  // the stream does not look at what stands at the end of the last member: its checksum and its length
  const trailer = new DataView(bytes.buffer, bytes.byteOffset + Math.max(bytes.length - 8, 0));
  const last = whole.subarray(member);
  if (
    size < 0 ||
    bytes.length < 18 ||
    trailer.getUint32(4, true) !== last.length ||
    trailer.getUint32(0, true) !== crc32(last)
  ) {
    throw new InputError({ reason: 'unreadable', argument: 'data', rule: 'a whole gzip file', value: bytes });
  }
  return whole;
}

/** The checksum of a gzip member. RFC 1952, 8. */
function crc32(bytes: Uint8Array): number {
  const table = new Uint32Array(256);
  for (let i = 0; i < 256; i++) {
    let value = i;
    for (let bit = 0; bit < 8; bit++) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
    table[i] = value;
  }
  let crc = 0xffffffff;
  for (let i = 0; i < bytes.length; i++) crc = (crc >>> 8) ^ table[(crc ^ bytes[i]) & 255];
  return (crc ^ 0xffffffff) >>> 0;
}

/**
 * The main document of a KMZ archive: `doc.kml`, else the first `.kml` at its top, else the first at all.
 *
 * @throws {InputError} `too-large`, `missing` when it holds none, `unreadable` when it is damaged
 * @see OGC KML 2.2 (07-147r2), annex C
 */
export function unpackKmz(bytes: Uint8Array): Uint8Array {
  const documents: UnzipFileInfo[] = [];
  try {
    unzipSync(bytes, {
      filter: (file) => {
        if (/\.kml$/i.test(file.name)) documents.push(file);
        return false;
      },
    });
    const main =
      documents.find(({ name }) => name.toLowerCase() === 'doc.kml') ??
      documents.find(({ name }) => !name.includes('/')) ??
      documents[0];
    if (!main) {
      throw new InputError({ reason: 'missing', argument: 'data', rule: 'an archive with a .kml file', value: bytes });
    }
    if (main.originalSize > MAX_BYTES) throw tooLarge(main.originalSize);
    return unzipSync(bytes, { filter: ({ name }) => name === main.name })[main.name];
  } catch (error) {
    if (error instanceof InputError) throw error;
    throw new InputError({ reason: 'unreadable', argument: 'data', rule: 'a whole zip archive', value: bytes });
  }
}
