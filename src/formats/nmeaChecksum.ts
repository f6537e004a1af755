/** The checksum of the characters between `$` and `*` of a sentence: their exclusive or, two hexadecimal digits. */
export function nmeaChecksum(body: string): string {
  let sum = 0;
  for (let i = 0; i < body.length; i++) sum ^= body.charCodeAt(i);
  return (sum & 0xff).toString(16).toUpperCase().padStart(2, '0');
}
