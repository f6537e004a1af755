import { encodingOf } from './decodeText';

/**
 * Whether a document is bytes that can be parsed as they are decoded, piece by piece: UTF-8 that begins with a tag and has no
 * ampersand, so that nothing has to be looked for or mended in the whole of it beforehand.
 */
export function isPlainXml(data: string | Uint8Array): data is Uint8Array {
  if (typeof data === 'string') return false;
  const begin = data[0] === 0xef && data[1] === 0xbb && data[2] === 0xbf ? 3 : 0;
  return data[begin] === 60 && encodingOf(data) === 'utf-8' && !data.includes(38);
}
