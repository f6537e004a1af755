import { readLines } from '../formats';
import { cannot } from './CommandError';

/** The one line of a file. */
export function oneLine(data: string | Uint8Array, file: string) {
  // the edges of a corridor as `route --out` writes them beside the line
  const lines = readLines(data).filter(({ name }) => !/, (left|right) edge$/.test(name));
  if (lines.length === 1) return lines[0];
  const names = lines.slice(0, 5).map(({ name }) => `"${name}"`);
  const rest = lines.length > 5 ? ` and ${lines.length - 5} more` : '';
  throw cannot(
    file,
    `expected one line, found ${lines.length}${lines.length === 0 ? '' : `: ${names.join(', ')}${rest}`}`,
  );
}
