const table = [
  0x0000, 0xcc01, 0xd801, 0x1400, 0xf001, 0x3c00, 0x2800, 0xe401, 0xa001, 0x6c00, 0x7800, 0xb401, 0x5000, 0x9c01,
  0x8801, 0x4400,
];

/** The 16-bit cyclic redundancy check of a FIT file over its bytes. */
export function fitChecksum(bytes: Uint8Array): number {
  let crc = 0;
  for (const byte of bytes) {
    crc = (crc >> 4) ^ table[crc & 15] ^ table[byte & 15];
    crc = (crc >> 4) ^ table[crc & 15] ^ table[byte >> 4];
  }
  return crc;
}
