import { readFile } from 'node:fs/promises';
import { cannot } from './CommandError';
import { explain } from './explain';
import { jsonFault } from './jsonFault';

/** The value of a JSON text; a fault is named by line and column. */
export function readJson(document: string, file: string): unknown {
  // a byte order mark, which some editors write (RFC 8259, section 8.1: a reader may pass over it)
  const text = document.replace(/^\ufeff/, '');
  try {
    return JSON.parse(text);
  } catch {
    const offset = jsonFault(text);
    const before = text.slice(0, offset).split('\n');
    const place = `line ${before.length}, column ${before[before.length - 1].length + 1}`;
    throw cannot(
      file,
      offset === text.length ? `not valid JSON: it ends too soon, at ${place}` : `not valid JSON at ${place}`,
    );
  }
}

/** The value of a JSON file. */
export async function readDocument(file: string): Promise<unknown> {
  try {
    return readJson(await readFile(file, 'utf8'), file);
  } catch (error) {
    throw explain(error, file);
  }
}

/** Whether a text can only be meant as JSON. */
export function looksLikeJson(text: string): boolean {
  return /^\s*[{[]/.test(text);
}
