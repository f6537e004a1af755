/**
 * FNV-1a, 64 bit, of columns of numbers (their little-endian bytes) and texts, as 16 hexadecimal digits: of the first alone, of the
 * first two, and so on to all of them.
 *
 * It tells whether two assessments had the same input; it is no protection against somebody who wants them to look alike.
 *
 * @see Fowler, Noll, Vo, The FNV Non-Cryptographic Hash Algorithm, offset basis and prime for 64 bits
 */
export function hashesAlong(parts: readonly (ArrayLike<number> | string)[]): string[] {
  // two 16-bit limbs, least first, and the upper half
  let a = 0x2325;
  let b = 0x8422;
  let upper = 0xcbf29ce4 | 0;
  const hashes: string[] = [];
  // a loop within the loop, as what a function inside shared with it would be written to memory at every byte
  for (const part of parts) {
    const bytes = typeof part === 'string' ? new TextEncoder().encode(part) : littleEndian(part);
    for (let i = 0; i < bytes.length; i++) {
      a ^= bytes[i];
      // × (2^40 + 0x1b3)
      const a1 = Math.imul(a, 0x1b3);
      const b1 = (Math.imul(b, 0x1b3) + (a1 >>> 16)) | 0;
      upper = (Math.imul(upper, 0x1b3) + (((b << 16) | a) << 8) + (b1 >>> 16)) | 0;
      a = a1 & 0xffff;
      b = b1 & 0xffff;
    }
    const limbs = [upper >>> 16, upper & 0xffff, b, a];
    hashes.push(limbs.map((limb) => limb.toString(16).padStart(4, '0')).join(''));
  }
  return hashes;
}

const LITTLE_ENDIAN = new Uint8Array(Uint16Array.of(1).buffer)[0] === 1;

function littleEndian(column: ArrayLike<number>): Uint8Array {
  const doubles = column instanceof Float64Array ? column : new Float64Array(column);
  if (LITTLE_ENDIAN) return new Uint8Array(doubles.buffer, doubles.byteOffset, doubles.byteLength);
  const view = new DataView(new ArrayBuffer(doubles.byteLength));
  for (let i = 0; i < doubles.length; i++) view.setFloat64(8 * i, doubles[i], true);
  return new Uint8Array(view.buffer);
}
