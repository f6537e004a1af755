/** The checksum of the characters between `$` and `*` of a sentence, the two at indices of `text`: their exclusive or. */
export function nmeaChecksum(text: string, from = 0, to = text.length): number {
  let sum = 0;
  for (let at = from; at < to; at++) sum ^= text.charCodeAt(at);
  return sum & 0xff;
}
