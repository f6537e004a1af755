import { InputError } from '../model';
import type { DocumentData } from './DocumentSource';

/**
 * Text as it is, bytes as a `Uint8Array` of this realm over the same memory.
 *
 * @throws {InputError} `wrong-type` for anything else
 */
export function bytesOf(data: DocumentData, argument = 'data', rule = 'a string or bytes'): string | Uint8Array {
  if (typeof data === 'string') return data;
  if (ArrayBuffer.isView(data)) return ownBytes(new Uint8Array(data.buffer, data.byteOffset, data.byteLength));
  const tag = Object.prototype.toString.call(data);
  if (tag === '[object ArrayBuffer]' || tag === '[object SharedArrayBuffer]') return ownBytes(new Uint8Array(data));
  throw new InputError({ reason: 'wrong-type', argument, rule, value: data });
}

/** A copy where threads share the memory: decoders refuse it, and it could change while it is read. */
function ownBytes(bytes: Uint8Array): Uint8Array {
  return Object.prototype.toString.call(bytes.buffer) === '[object SharedArrayBuffer]' ? bytes.slice() : bytes;
}
