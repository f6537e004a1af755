import { InputError } from '../model';
import { fitChecksum } from './fitChecksum';
import type { IssueLog } from './IssueLog';

/** One whole FIT file, its header fitted to the messages that are there. */
export interface FitPart {
  readonly bytes: Uint8Array;
  /** Where messages end within `bytes`, rising: cutting at any of them leaves whole messages. */
  readonly ends: readonly number[];
}

const isFit = (bytes: Uint8Array, at: number) =>
  (bytes[at] === 12 || bytes[at] === 14) &&
  bytes[at + 8] === 0x2e &&
  bytes[at + 9] === 0x46 &&
  bytes[at + 10] === 0x49 &&
  bytes[at + 11] === 0x54;

/**
 * The FIT files chained in `bytes`, each up to its last whole message: a file that was cut off keeps what came before.
 *
 * @throws {InputError} `unreadable` when there is no FIT header at the start
 */
export function fitParts(bytes: Uint8Array, issues: IssueLog): FitPart[] {
  const parts: FitPart[] = [];
  for (let at = 0; at < bytes.length; ) {
    if (!isFit(bytes, at)) {
      if (at > 0) {
        issues.note('trailing-bytes', () => `byte ${at}`, bytes.length - at);
        break;
      }
      throw new InputError({ reason: 'unreadable', argument: 'data', rule: 'a FIT file', value: bytes });
    }
    const header = bytes[at];
    const size = new DataView(bytes.buffer, bytes.byteOffset + at, 8).getUint32(4, true);
    const whole = at + header + size + 2 <= bytes.length;
    const end = Math.min(at + header + size, bytes.length);
    if (whole && fitChecksum(bytes.subarray(at, end)) !== (bytes[end] | (bytes[end + 1] << 8))) {
      issues.note('checksum', () => `byte ${at}`);
    }
    const ends = messageEnds(bytes.subarray(at, end), header);
    const last = ends.at(-1) ?? header;
    if (!whole || at + last < end) issues.note('cut-off', () => `byte ${at + last}`);
    parts.push({ bytes: bytes.subarray(at, at + last), ends });
    at = whole ? end + 2 : bytes.length;
  }
  return parts;
}

/** A copy of the first `end` bytes as a file of its own. */
export function wholeFit({ bytes }: FitPart, end: number): Uint8Array {
  const header = bytes[0];
  const copy = new Uint8Array(end + 2);
  copy.set(bytes.subarray(0, end));
  const view = new DataView(copy.buffer);
  view.setUint32(4, end - header, true);
  if (header === 14) view.setUint16(12, fitChecksum(copy.subarray(0, 12)), true);
  view.setUint16(end, fitChecksum(copy.subarray(0, end)), true);
  return copy;
}

/** Goes from message to message by the sizes their definitions state, as far as whole ones go. */
function messageEnds(bytes: Uint8Array, header: number): number[] {
  const sizes = new Map<number, { whole: number; timeFirst: number }>();
  const ends: number[] = [];
  for (let at = header; at < bytes.length; ) {
    const head = bytes[at];
    const compressed = (head & 0x80) !== 0;
    if (!compressed && (head & 0x40) !== 0) {
      const count = bytes[at + 5];
      let next = at + 6 + count * 3;
      let whole = 0;
      for (let i = 0; i < count; i++) whole += bytes[at + 7 + i * 3];
      const timeFirst = count > 0 && bytes[at + 6] === 253 ? bytes[at + 7] : 0;
      if ((head & 0x20) !== 0) {
        const more = bytes[next];
        for (let i = 0; i < more; i++) whole += bytes[next + 2 + i * 3];
        next += 1 + more * 3;
      }
      if (!(next <= bytes.length)) break;
      sizes.set(head & 15, { whole, timeFirst });
      at = next;
    } else {
      const size = sizes.get(compressed ? (head >> 5) & 3 : head & 15);
      if (!size) break;
      at += 1 + size.whole - (compressed ? size.timeFirst : 0);
      if (at > bytes.length) break;
    }
    ends.push(at);
  }
  return ends;
}
