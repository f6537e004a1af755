import { type AsyncOptions, InputError, type StopSignal, stopIfAborted } from '../model';
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
 * The whole of a document, however it comes. Reading stops as soon as more comes than may, or it is told to, and what is left is
 * called off.
 *
 * @param most - bytes, or characters of text
 * @throws {InputError} `wrong-type`; `too-large`; `unreadable` for a response that failed; `misplaced` for one, or a stream, that
 * is being read already. What a stream itself fails with is passed on
 */
export async function gatherSource(
  data: DocumentSource,
  most = MAX_BYTES,
  driven: AsyncOptions = {},
): Promise<string | Uint8Array> {
  stopIfAborted(driven.signal);
  if (isThere(data)) return bytesOf(data);
  const { status, ok, bodyUsed, locked, size, body } = (data ?? {}) as Able;
  if (ok === false) throw refusal('unreadable', 'a response that succeeded', status);
  if (bodyUsed || locked) throw refusal('misplaced', 'a stream or body that nobody reads yet', data);
  // a length that is known beforehand spares the reading
  if (typeof size === 'number') checkSize({ length: size }, most);
  const from = (typeof body === 'object' && body !== null ? body : data) as Able;
  const total = typeof size === 'number' ? size : null;
  if (isStream(from)) return joined(readerPieces(from), most, total, driven);
  if (typeof from?.[Symbol.asyncIterator] === 'function') {
    return joined(itsPieces(from as Pieces), most, total, driven);
  }
  const { arrayBuffer } = (data ?? {}) as Partial<ByteHolder>;
  if (typeof arrayBuffer === 'function') {
    const whole = bytesOf(await unlessStopped(() => arrayBuffer.call(data), driven.signal));
    checkSize(whole, most);
    driven.onProgress?.({ done: whole.length, of: whole.length, what: 'received' });
    return whole;
  }
  throw refusal('wrong-type', 'a string, bytes, a Blob, a Response or a stream of bytes', data);
}

const refusal = (reason: 'wrong-type' | 'misplaced' | 'unreadable', rule: string, value: unknown) =>
  new InputError({ reason, argument: 'data', rule, value });

const isStream = (value: Able): value is PieceStream => typeof value?.getReader === 'function';

/** By its reader: not every browser's streams can be gone through by themselves. */
function readerPieces(stream: PieceStream): Incoming {
  const reader = stream.getReader();
  return { next: () => reader.read(), leave: (reason) => reader.cancel(reason) };
}

/** One by one; streams of Node are destroyed, as what goes through them waits for their next piece before it hears anything. */
function itsPieces(given: Pieces): Incoming {
  const iterator = given[Symbol.asyncIterator]();
  return {
    next: () => iterator.next(),
    leave: async () => {
      (given as { readonly destroy?: () => void }).destroy?.();
      await iterator.return?.();
    },
  };
}

/** Pieces as they come; what is left can be called off. */
interface Incoming {
  next(): Promise<{ readonly done?: boolean; readonly value?: unknown }>;
  leave(reason: unknown): Promise<unknown>;
}

async function joined(
  pieces: Incoming,
  most: number,
  total: number | null,
  { signal, onProgress }: AsyncOptions,
): Promise<string | Uint8Array> {
  const texts: string[] = [];
  const chunks: Uint8Array[] = [];
  const encoder = new TextEncoder();
  let length = 0;
  for (;;) {
    const { done, value } = await unlessStopped(
      () => pieces.next(),
      signal,
      (reason) => callOff(pieces, reason),
    );
    if (done) break;
    try {
      const own = bytesOf(value as DocumentData, 'data', 'a stream of strings or bytes');
      length += own.length;
      checkSize({ length }, most);
      if (typeof own === 'string' && chunks.length === 0) texts.push(own);
      else {
        for (const text of texts.splice(0)) chunks.push(encoder.encode(text));
        chunks.push(typeof own === 'string' ? encoder.encode(own) : own);
      }
      onProgress?.({ done: length, of: total, what: 'received' });
    } catch (fault) {
      callOff(pieces, fault);
      throw fault;
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

/** Nobody waits for it: a source that never ends may never say that it was called off. */
function callOff(pieces: Incoming, reason: unknown): void {
  new Promise((resolve) => resolve(pieces.leave(reason))).catch(() => {});
}

/** What is waited for, or the reason of the signal as soon as it is aborted. */
function unlessStopped<T>(
  begin: () => Promise<T>,
  signal: StopSignal | undefined,
  left: (reason: unknown) => void = () => {},
): Promise<T> {
  return new Promise<T>((resolve, reject) => {
    const stop = () => {
      signal?.removeEventListener('abort', stop);
      left(signal?.reason);
      reject(signal?.reason);
    };
    if (signal?.aborted) {
      stop();
      return;
    }
    signal?.addEventListener('abort', stop);
    const coming = new Promise<T>((settle) => settle(begin()));
    coming.then(resolve, reject).finally(() => signal?.removeEventListener('abort', stop));
  });
}
