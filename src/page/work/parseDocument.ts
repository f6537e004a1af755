/**
 * The value of a JSON text.
 *
 * @throws {Error} naming the file
 */
export function parseDocument(text: string, path: string): unknown {
  try {
    // a byte order mark, which some editors write
    return JSON.parse(text.replace(/^\ufeff/, ''));
  } catch (error) {
    throw new Error(`${path}: not valid JSON: ${(error as Error).message}`);
  }
}
