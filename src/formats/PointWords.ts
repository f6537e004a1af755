/**
 * The words of each point of a line, longitude, latitude, height, taken from its text point by point: as objects they would
 * take many times the text.
 */
export class PointWords implements Iterable<readonly string[]> {
  readonly #text: string;
  readonly #apart: RegExp;

  /** @param apart - what parts the points: any blanks, or the end of each line */
  constructor(text: string, apart: 'blanks' | 'lines') {
    this.#text = text;
    this.#apart = apart === 'blanks' ? /\s*(\S+)/y : /([^\n]*)\n/y;
  }

  get length(): number {
    let length = 0;
    for (const _ of this.#tuples()) length++;
    return length;
  }

  get first(): readonly string[] | undefined {
    for (const words of this) return words;
    return undefined;
  }

  *[Symbol.iterator](): Generator<readonly string[]> {
    for (const tuple of this.#tuples()) yield tuple === '' ? [] : tuple.split(',');
  }

  *#tuples(): Generator<string> {
    const apart = new RegExp(this.#apart);
    for (let match = apart.exec(this.#text); match; match = apart.exec(this.#text)) yield match[1];
  }
}
