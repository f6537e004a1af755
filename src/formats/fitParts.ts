import { InputError } from '../model';
import { fitChecksum } from './fitChecksum';
import type { IssueLog } from './IssueLog';

/** One FIT file of those chained. */
export interface FitPart {
  /** Its header and its messages, as far as they are there. */
  readonly bytes: Uint8Array;
  /** Where it begins in the document. */
  readonly at: number;
  /** Whether all is there that its header announces. */
  readonly state: 'whole' | 'cut off';
}

const isFit = (bytes: Uint8Array, at: number) =>
  (bytes[at] === 12 || bytes[at] === 14) &&
  bytes[at + 8] === 0x2e &&
  bytes[at + 9] === 0x46 &&
  bytes[at + 10] === 0x49 &&
  bytes[at + 11] === 0x54;

/**
 * The FIT files chained in `bytes`; the last may be cut off.
 *
 * @throws {InputError} `unreadable` when there is no FIT header at the start
 */
export function* fitParts(bytes: Uint8Array, issues: IssueLog): Generator<FitPart, void> {
  for (let at = 0; at < bytes.length; ) {
    if (!isFit(bytes, at)) {
      if (at > 0) {
        issues.note('trailing-bytes', () => `byte ${at}`, bytes.length - at);
        break;
      }
      throw new InputError({ reason: 'unreadable', argument: 'data', rule: 'a FIT file', value: bytes });
    }
    const size = new DataView(bytes.buffer, bytes.byteOffset + at, 8).getUint32(4, true);
    const begin = at + bytes[at];
    // written when the file is closed: messages after a size of 0 are those of a receiver that lost its power
    const open = size === 0 && (bytes[begin] & 0xc0) === 0x40 && !isFit(bytes, begin + 2);
    const end = open ? bytes.length : begin + size;
    const whole = end + 2 <= bytes.length;
    const part = bytes.subarray(at, Math.min(end, bytes.length));
    if (whole && fitChecksum(part) !== (bytes[end] | (bytes[end + 1] << 8)))
      issues.note('checksum', () => `byte ${at}`);
    yield { bytes: part, at, state: whole ? 'whole' : 'cut off' };
    at = whole ? end + 2 : bytes.length;
  }
}
