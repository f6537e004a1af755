import { InputError } from '../model';
import { bytesOf } from './bytesOf';
import type { ByteHolder, DocumentData, DocumentSource, PieceStream } from './DocumentSource';
import { checkSize, MAX_BYTES } from './unpack';

type Pieces = AsyncIterable<unknown>;
type Able = Partial<ByteHolder & PieceStream & Pieces> & {
  readonly status?: number;
  readonly ok?: boolean;
  readonly bodyUsed?: boolean;
  readonly locked?: boolean;
  readonly size?: number;
  readonly body?: unknown;
};

const isThere = (data: unknown): data is DocumentData =>
  typeof data === 'string' ||
  ArrayBuffer.isView(data) ||
  /^\[object (Shared)?ArrayBuffer\]$/.test(Object.prototype.toString.call(data));

/**
 * The whole of a document, however it comes. Reading stops as soon as more comes than may, and what is left is called off.
 *
 * @param most - bytes, or characters of text
 * @throws {InputError} `wrong-type`; `too-large`; `unreadable` for a response that failed; `misplaced` for one, or a stream, that
 * is being read already. What a stream itself fails with is passed on
 */
export async function gatherSource(data: DocumentSource, most = MAX_BYTES): Promise<string | Uint8Array> {
  if (isThere(data)) return bytesOf(data);
  const { status, ok, bodyUsed, locked, size, body } = (data ?? {}) as Able;
  if (ok === false) throw refusal('unreadable', 'a response that succeeded', status);
  if (bodyUsed || locked) throw refusal('misplaced', 'a stream or body that nobody reads yet', data);
  // a length that is known beforehand spares the reading
  if (typeof size === 'number') checkSize({ length: size }, most);
  const from = (typeof body === 'object' && body !== null ? body : data) as Able;
  if (isStream(from)) return joined(readerPieces(from), most);
  if (typeof from?.[Symbol.asyncIterator] === 'function') return joined(from as Pieces, most);
  const { arrayBuffer } = (data ?? {}) as Partial<ByteHolder>;
  if (typeof arrayBuffer === 'function') {
    const whole = bytesOf(await arrayBuffer.call(data));
    checkSize(whole, most);
    return whole;
  }
  throw refusal('wrong-type', 'a string, bytes, a Blob, a Response or a stream of bytes', data);
}

const refusal = (reason: 'wrong-type' | 'misplaced' | 'unreadable', rule: string, value: unknown) =>
  new InputError({ reason, argument: 'data', rule, value });

const isStream = (value: Able): value is PieceStream => typeof value?.getReader === 'function';

/** By its reader: not every browser's streams can be gone through by themselves. */
async function* readerPieces(stream: PieceStream): Pieces {
  const reader = stream.getReader();
  let left = true;
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) {
        left = false;
        return;
      }
      yield value;
    }
  } catch (error) {
    left = false;
    throw error;
  } finally {
    if (left) await reader.cancel();
  }
}

async function joined(pieces: Pieces, most: number): Promise<string | Uint8Array> {
  const texts: string[] = [];
  const chunks: Uint8Array[] = [];
  const encoder = new TextEncoder();
  let length = 0;
  for await (const piece of pieces) {
    const own = bytesOf(piece as DocumentData, 'data', 'a stream of strings or bytes');
    length += own.length;
    checkSize({ length }, most);
    if (typeof own === 'string' && chunks.length === 0) texts.push(own);
    else {
      for (const text of texts.splice(0)) chunks.push(encoder.encode(text));
      chunks.push(typeof own === 'string' ? encoder.encode(own) : own);
    }
  }
  if (chunks.length === 0) return texts.join('');
  const whole = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole;
}
