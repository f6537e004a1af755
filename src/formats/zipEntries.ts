/** One file of a zip archive as its directory states it. */
export interface ZipEntry {
  readonly name: string;
  /** Its bytes as they stand in the archive. */
  readonly packed: Uint8Array;
  /** 0 is stored, 8 deflated. */
  readonly method: number;
  readonly size: number;
  readonly checksum: number;
}

/** A comment of the greatest length may follow the end record. */
const MAX_COMMENT = 65_535;

/**
 * The files that the directory of a zip archive names, in its order; `undefined` when the directory is damaged, encrypted
 * or in several volumes. Nothing is unpacked. The 64-bit form is none either: no archive of that size is read.
 *
 * @see PKWARE .ZIP file format specification 6.3, sections 4.3.7, 4.3.12 and 4.3.16
 */
export function zipEntries(bytes: Uint8Array): ZipEntry[] | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  let end = bytes.length - 22;
  const least = Math.max(0, end - MAX_COMMENT);
  while (end >= least && view.getUint32(end, true) !== 0x06054b50) end--;
  if (end < least) return undefined;
  const count = view.getUint16(end + 10, true);
  const entries: ZipEntry[] = [];
  let at = view.getUint32(end + 16, true);
  for (let i = 0; i < count; i++) {
    if (at + 46 > end || view.getUint32(at, true) !== 0x02014b50) return undefined;
    const encrypted = (view.getUint16(at + 8, true) & 1) !== 0;
    const packedSize = view.getUint32(at + 20, true);
    const nameSize = view.getUint16(at + 28, true);
    const local = view.getUint32(at + 42, true);
    if (encrypted || at + 46 + nameSize > end || local + 30 > end || view.getUint32(local, true) !== 0x04034b50) {
      return undefined;
    }
    const from = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
    if (from + packedSize > end) return undefined;
    entries.push({
      // names in another encoding than UTF-8 are only looked at for their ending
      name: new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + nameSize)),
      packed: bytes.subarray(from, from + packedSize),
      method: view.getUint16(at + 10, true),
      size: view.getUint32(at + 24, true),
      checksum: view.getUint32(at + 16, true),
    });
    at += 46 + nameSize + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return entries;
}
