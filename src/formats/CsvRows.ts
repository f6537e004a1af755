import { InputError } from '../model';
import { parseDecimal } from './parseDecimal';

/** A table of positions has rows of some hundred characters; one so long is no table. */
const MAX_ROW = 65_536;

/**
 * Goes through the rows of a table with quoted cells, blank lines left out, holding nothing but where the cells of the present row
 * stand.
 *
 * @see RFC 4180, 2005, section 2
 */
export class CsvRows {
  /** How many cells the present row has. */
  count = 0;
  /** The line it begins on. */
  line = 0;
  /** Where in the text it ends. */
  end: number;

  readonly #text: string;
  readonly #delimiter: number;
  #nextLine = 1;
  #begins = new Int32Array(16);
  #ends = new Int32Array(16);
  /** What quoted cells of the present row say, by their index. */
  readonly #quoted = new Map<number, string>();

  /** @param delimiter - one character */
  constructor(text: string, delimiter: string) {
    this.#text = text;
    this.#delimiter = delimiter.charCodeAt(0);
    this.end = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  }

  /**
   * Moves on to the next row; false when there is none.
   *
   * @throws {InputError} `too-large` for a row of more than 65 536 characters, `unreadable` for a quote that does not end
   */
  next(): boolean {
    while (this.end < this.#text.length) {
      this.#parse();
      if (this.count > 1 || this.cell(0).trim() !== '') return true;
    }
    return false;
  }

  /** What a cell says; empty where the row has none of that index. */
  cell(index: number): string {
    if (!(index >= 0 && index < this.count)) return '';
    return this.#quoted.get(index) ?? this.#text.slice(this.#begins[index], this.#ends[index]);
  }

  /** All of them. */
  cells(): string[] {
    return Array.from({ length: this.count }, (_, index) => this.cell(index));
  }

  /** Whether a cell says this. */
  says(index: number, text: string): boolean {
    if (this.#quoted.size > 0 || !(index >= 0 && index < this.count)) return this.cell(index) === text;
    const begin = this.#begins[index];
    return this.#ends[index] - begin === text.length && this.#text.startsWith(text, begin);
  }

  /** The number that a cell writes; NaN where it writes none. */
  number(index: number): number {
    if (!(index >= 0 && index < this.count)) return Number.NaN;
    if (this.#quoted.size > 0) return parseDecimal(this.cell(index));
    return parseDecimal(this.#text, this.#begins[index], this.#ends[index]);
  }

  #parse(): void {
    const text = this.#text;
    const delimiter = this.#delimiter;
    const begin = this.end;
    this.line = this.#nextLine;
    // a map makes a new table of itself each time it is cleared
    if (this.#quoted.size > 0) this.#quoted.clear();
    let at = begin;
    let count = 0;
    for (;;) {
      const quoted = text.charCodeAt(at) === 34 ? this.#quotedText(at, begin) : undefined;
      const from = quoted ? quoted.end : at;
      let code = -1;
      for (at = from; at < text.length; at++) {
        code = text.charCodeAt(at);
        if (code === delimiter || code === 10 || code === 13) break;
      }
      if (at - begin > MAX_ROW) this.#refuse(begin, at, 'a row');
      if (count === this.#begins.length) {
        this.#begins = twice(this.#begins);
        this.#ends = twice(this.#ends);
      }
      if (quoted) this.#quoted.set(count, quoted.says + text.slice(from, at));
      this.#begins[count] = from;
      this.#ends[count++] = at;
      if (at >= text.length) break;
      at++;
      if (code === delimiter) continue;
      if (code === 13 && text.charCodeAt(at) === 10) at++;
      break;
    }
    this.#nextLine++;
    this.count = count;
    this.end = at;
  }

  /** What the quote that begins at an index says, and where it ends. */
  #quotedText(at: number, rowBegin: number): { says: string; end: number } {
    const text = this.#text;
    let says = '';
    for (let from = at; ; ) {
      const quote = text.indexOf('"', from + 1);
      if (quote < 0 || quote - rowBegin > MAX_ROW) {
        this.#refuse(rowBegin, quote < 0 ? text.length : quote, 'a quote that ends');
      }
      says += text.slice(from + 1, quote);
      from = quote + 1;
      if (text.charCodeAt(from) !== 34) {
        for (let i = 0; i < says.length; i++) if (says.charCodeAt(i) === 10) this.#nextLine++;
        return { says, end: from };
      }
      says += '"';
    }
  }

  #refuse(begin: number, end: number, what: string): never {
    const long = end - begin > MAX_ROW;
    throw new InputError({
      reason: long ? 'too-large' : 'unreadable',
      argument: `data line ${this.line}`,
      rule: long ? `a row of at most ${MAX_ROW} characters` : `a table row with ${what}`,
      value: this.#text.slice(begin, begin + 41),
    });
  }
}

function twice(values: Int32Array): Int32Array<ArrayBuffer> {
  const grown = new Int32Array(2 * values.length);
  grown.set(values);
  return grown;
}
