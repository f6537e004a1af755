import { InputError } from '../model';

/** A table of positions has rows of some hundred characters; one so long is no table. */
const MAX_ROW = 65_536;

/** One row of a table, with the line it begins on. */
export interface CsvRow {
  readonly cells: string[];
  readonly line: number;
  /** Where in the text it ends. */
  readonly end: number;
}

/**
 * The rows of a table with quoted cells, blank lines left out.
 *
 * @throws {InputError} `too-large` for a row of more than 65 536 characters, `unreadable` for a quote that does not end
 * @see RFC 4180, 2005, section 2
 */
export function* csvRows(text: string, delimiter: string): Generator<CsvRow> {
  let line = 1;
  let at = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  while (at < text.length) {
    const begin = at;
    const first = line;
    const cells: string[] = [];
    for (let ended = false; !ended; ) {
      let cell = '';
      if (text[at] === '"') {
        for (;;) {
          const quote = text.indexOf('"', at + 1);
          if (quote < 0 || quote - begin > MAX_ROW) refuseRow(quote < 0 ? text.length : quote, 'a quote that ends');
          cell += text.slice(at + 1, quote);
          at = quote + 1;
          if (text[at] !== '"') break;
          cell += '"';
        }
        for (let i = 0; i < cell.length; i++) if (cell.charCodeAt(i) === 10) line++;
      }
      const from = at;
      while (at < text.length && text[at] !== delimiter && text[at] !== '\n' && text[at] !== '\r') at++;
      if (at - begin > MAX_ROW) refuseRow(at, 'a row');
      cells.push(cell + text.slice(from, at));
      ended = text[at] !== delimiter;
      at++;
    }
    if (text[at - 1] === '\r' && text[at] === '\n') at++;
    line++;
    if (cells.length > 1 || cells[0].trim() !== '') yield { cells, line: first, end: Math.min(at, text.length) };

    function refuseRow(end: number, what: string): never {
      const long = end - begin > MAX_ROW;
      throw new InputError({
        reason: long ? 'too-large' : 'unreadable',
        argument: `data line ${first}`,
        rule: long ? `a row of at most ${MAX_ROW} characters` : `a table row with ${what}`,
        value: text.slice(begin, begin + 41),
      });
    }
  }
}
