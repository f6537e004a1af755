/** CRC-16 with the reflected polynomial 0xA001 bit by bit: what the table-driven one must equal. */
export function fitCrc(bytes: readonly number[]): number {
  let crc = 0;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >> 1) ^ 0xa001 : crc >> 1;
  }
  return crc;
}
