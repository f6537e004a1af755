/**
 * FNV-1a, 64 bit, of columns of numbers (their little-endian bytes) and texts, as 16 hexadecimal digits.
 *
 * It tells whether two assessments had the same input; it is no protection against somebody who wants them to look alike.
 *
 * @see Fowler, Noll, Vo, The FNV Non-Cryptographic Hash Algorithm, offset basis and prime for 64 bits
 */
export function hashNumbers(parts: readonly (ArrayLike<number> | string)[]): string {
  // two 16-bit limbs, least first, and the upper half
  let [a, b, upper] = [0x2325, 0x8422, 0xcbf29ce4 | 0];
  const add = (bytes: Uint8Array) => {
    for (let i = 0; i < bytes.length; i++) {
      a ^= bytes[i];
      // × (2^40 + 0x1b3)
      const a1 = a * 0x1b3;
      const b1 = b * 0x1b3 + (a1 >>> 16);
      upper = (Math.imul(upper, 0x1b3) + (((b << 16) | a) << 8) + (b1 >>> 16)) | 0;
      a = a1 & 0xffff;
      b = b1 & 0xffff;
    }
  };
  for (const part of parts) {
    if (typeof part === 'string') add(new TextEncoder().encode(part));
    else add(littleEndian(part));
  }
  return [upper >>> 16, upper & 0xffff, b, a].map((limb) => limb.toString(16).padStart(4, '0')).join('');
}

const LITTLE_ENDIAN = new Uint8Array(Uint16Array.of(1).buffer)[0] === 1;

function littleEndian(column: ArrayLike<number>): Uint8Array {
  if (LITTLE_ENDIAN && column instanceof Float64Array) {
    return new Uint8Array(column.buffer, column.byteOffset, column.byteLength);
  }
  const bytes = new Uint8Array(8 * column.length);
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < column.length; i++) view.setFloat64(8 * i, column[i], true);
  return bytes;
}
