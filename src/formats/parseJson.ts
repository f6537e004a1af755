import { InputError } from '../model';
import { decodeText } from './decodeText';

/** GeoJSON nests about ten deep. */
const MAX_DEPTH = 256;

/**
 * The value of a JSON document given as text or bytes.
 *
 * @throws {InputError} `unreadable` for what is not JSON, `too-large` for what nests too deep
 */
export function parseJson(data: string | Uint8Array, format: string, most: number): unknown {
  const text = decodeText(data, most).replace(/^\ufeff/, '');
  let depth = 0;
  let quoted = false;
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (quoted) {
      if (code === 92) at++;
      else if (code === 34) quoted = false;
    } else if (code === 34) quoted = true;
    else if (code === 91 || code === 123) {
      if (++depth > MAX_DEPTH) {
        throw new InputError({
          reason: 'too-large',
          argument: 'data nesting',
          rule: `at most ${MAX_DEPTH} arrays and objects deep`,
          value: text.slice(at - 40, at + 1),
        });
      }
    } else if (code === 93 || code === 125) depth--;
  }
  try {
    return JSON.parse(text);
  } catch {
    throw new InputError({ reason: 'unreadable', argument: 'data', rule: `${format}: a JSON document`, value: text });
  }
}
