import { Gunzip, Inflate } from 'fflate';
import { InputError } from '../model';
import { type ZipEntry, zipEntries } from './zipEntries';

/** Longest document that is read unless asked otherwise, packed or unpacked, in bytes. */
export const MAX_BYTES = 256 * 2 ** 20;

/** Deflate grows its input 1032-fold at most, so that a piece of this size stays far below the limit. */
const PIECE = 16_384;

const tooLarge = (value: number, most: number) =>
  new InputError({
    reason: 'too-large',
    argument: 'data',
    rule: `at most ${most} bytes`,
    value,
    hint: 'The option maxBytes sets the limit',
  });

/**
 * Refuses a document that is longer than may be read.
 *
 * @throws {InputError} `too-large`
 */
export function checkSize(data: { readonly length: number }, most: number): void {
  if (data.length > most) throw tooLarge(data.length, most);
}

/** Whether the bytes begin as a gzip file does. RFC 1952, 2.3.1. */
export const isGzip = (bytes: Uint8Array): boolean => bytes[0] === 0x1f && bytes[1] === 0x8b;

/** Whether the bytes begin as a zip archive does. */
export const isZip = (bytes: Uint8Array): boolean => bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 3;

/** Gathers what a stream unpacks, and stops it as soon as that is more than expected. */
class Unpacked {
  size = 0;
  readonly #pieces: Uint8Array[] = [];

  constructor(
    readonly most: number,
    readonly refusal: (size: number) => Error,
  ) {}

  readonly add = (piece: Uint8Array): void => {
    this.size += piece.length;
    if (this.size > this.most) throw this.refusal(this.size);
    this.#pieces.push(piece);
  };

  whole(): Uint8Array {
    const whole = new Uint8Array(this.size);
    let at = 0;
    for (const piece of this.#pieces) {
      whole.set(piece, at);
      at += piece.length;
    }
    return whole;
  }
}

/** Pushes bytes through a stream piece by piece; false when it finds them damaged. */
function pushAll(stream: { push(piece: Uint8Array, final: boolean): void }, bytes: Uint8Array): boolean {
  try {
    for (let at = 0; at < bytes.length; at += PIECE) {
      stream.push(bytes.subarray(at, at + PIECE), at + PIECE >= bytes.length);
    }
  } catch (error) {
    if (error instanceof InputError) throw error;
    return false;
  }
  return true;
}

/**
 * What a gzip file holds.
 *
 * @throws {InputError} `too-large`, or `unreadable` when it is damaged or cut off
 */
export function gunzip(bytes: Uint8Array, most: number): Uint8Array {
  const unpacked = new Unpacked(most, (size) => tooLarge(size, most));
  let member = 0;
  const stream = new Gunzip(unpacked.add);
  stream.onmember = () => {
    member = unpacked.size;
  };
  const undamaged = pushAll(stream, bytes);
  const whole = unpacked.whole();
  // the stream does not look at what stands at the end of the last member: its checksum and its length
  const trailer = new DataView(bytes.buffer, bytes.byteOffset + Math.max(bytes.length - 8, 0));
  const last = whole.subarray(member);
  if (
    !undamaged ||
    bytes.length < 18 ||
    trailer.getUint32(4, true) !== last.length ||
    trailer.getUint32(0, true) !== crc32(last)
  ) {
    throw new InputError({ reason: 'unreadable', argument: 'data', rule: 'a whole gzip file', value: bytes });
  }
  return whole;
}

/** The checksum of a gzip member or a file in a zip archive. RFC 1952, 8. */
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

/** The main document of an archive, and how many others were left. */
export interface Unzipped {
  readonly data: Uint8Array;
  readonly others: number;
}

/**
 * The main document of a KMZ archive: `doc.kml`, else the first `.kml` at its top, else the first at all.
 *
 * @throws {InputError} `too-large`, `missing` when it holds none, `unreadable` when it is damaged
 * @see OGC KML 2.2 (07-147r2), annex C
 */
export function unpackKmz(bytes: Uint8Array, most: number): Unzipped {
  checkSize(bytes, most);
  const documents = zipEntries(bytes)?.filter(({ name }) => /\.kml$/i.test(name));
  if (documents?.length === 0) {
    throw new InputError({ reason: 'missing', argument: 'data', rule: 'an archive with a .kml file', value: bytes });
  }
  const main =
    documents?.find(({ name }) => name.toLowerCase() === 'doc.kml') ??
    documents?.find(({ name }) => !name.includes('/')) ??
    documents?.[0];
  const data = main && unzip(main, most);
  if (!data) {
    throw new InputError({ reason: 'unreadable', argument: 'data', rule: 'a whole zip archive', value: bytes });
  }
  return { data, others: documents!.length - 1 };
}

/** What a file of an archive holds; `undefined` when it is not what the directory says. */
function unzip({ packed, method, size, checksum }: ZipEntry, most: number): Uint8Array | undefined {
  if (size > most) throw tooLarge(size, most);
  if (method !== 0 && method !== 8) return undefined;
  const unpacked = new Unpacked(size, () => new RangeError('more than its directory says'));
  const stream = method === 8 ? new Inflate(unpacked.add) : { push: unpacked.add };
  if (!pushAll(stream, packed)) return undefined;
  const whole = unpacked.whole();
  return whole.length === size && crc32(whole) === checksum ? whole : undefined;
}
