import { InputError } from '../model';
import { checkSize, gunzip, isGzip } from './unpack';

/** Bytes decoded at a time: Node takes a sixth of the time for the whole in such pieces. */
const PIECE = 2 ** 16;

/**
 * The text of a document given as text or bytes, gzipped or not: by its byte order mark, as UTF-16 where every other byte of the first
 * four is 0, by the encoding its XML declaration states, and else as UTF-8.
 *
 * @param most - bytes, unpacked
 * @throws {InputError} `too-large`, `too-few` when empty, `unreadable` when the bytes are not of that
 * encoding
 */
export function decodeText(data: string | Uint8Array, most: number): string {
  checkSize(data, most);
  const text = typeof data === 'string' ? data : decode(isGzip(data) ? gunzip(data, most) : data);
  if (text.length === 0 || text.trim() === '') {
    throw new InputError({ reason: 'too-few', argument: 'data', rule: 'a document that is not empty', value: data });
  }
  return text;
}

function decode(bytes: Uint8Array): string {
  const encoding = encodingOf(bytes);
  try {
    const decoder = new TextDecoder(encoding, { fatal: true });
    let text = '';
    for (let from = 0; from < bytes.length; from += PIECE) {
      text += decoder.decode(bytes.subarray(from, from + PIECE), { stream: true });
    }
    return text + decoder.decode();
  } catch {
    throw new InputError({ reason: 'unreadable', argument: 'data', rule: `text encoded as ${encoding}`, value: bytes });
  }
}

/** The encoding of a document by its first bytes. */
export function encodingOf(bytes: Uint8Array): string {
  const [a, b, c, d] = bytes;
  if (a === 0xff && b === 0xfe) return 'utf-16le';
  if (a === 0xfe && b === 0xff) return 'utf-16be';
  if (a !== 0 && b === 0 && c !== 0 && d === 0) return 'utf-16le';
  if (a === 0 && b !== 0 && c === 0 && d !== 0) return 'utf-16be';
  const start = String.fromCharCode(...bytes.subarray(0, 200));
  return start.match(/^[^<]{0,16}<\?xml[^>]*?encoding\s*=\s*["']([\w.:-]+)["']/)?.[1].toLowerCase() ?? 'utf-8';
}
