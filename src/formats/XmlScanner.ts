import { InputError } from '../model';

/** What {@link XmlScanner.next} came upon. An empty element opens and closes. */
export type XmlEvent = 'open' | 'close' | 'text' | 'end';

/** A recording nests about ten deep; a document deeper than this is an attack or an accident. */
const MAX_DEPTH = 256;

const NAME_START = 1;
const NAME = 2;
const SPACE = 4;
const kinds = new Uint8Array(128);
for (let c = 0; c < 128; c++) {
  const letter = (c >= 65 && c <= 90) || (c >= 97 && c <= 122) || c === 95 || c === 58;
  const more = (c >= 48 && c <= 57) || c === 45 || c === 46;
  const space = c === 32 || c === 9 || c === 10 || c === 13;
  kinds[c] = (letter ? NAME_START | NAME : 0) | (more ? NAME : 0) | (space ? SPACE : 0);
}

/** NameStartChar beyond ASCII; a leading surrogate stands for its pair. XML 1.0 (fifth edition), production 4. */
const nameStartRanges = [
  [0xc0, 0xd6],
  [0xd8, 0xf6],
  [0xf8, 0x2ff],
  [0x370, 0x37d],
  [0x37f, 0x1fff],
  [0x200c, 0x200d],
  [0x2070, 0x218f],
  [0x2c00, 0x2fef],
  [0x3001, 0xdb7f],
  [0xdc00, 0xdfff],
  [0xf900, 0xfdcf],
  [0xfdf0, 0xfffd],
] as const;
const within = (code: number, ranges: readonly (readonly [number, number])[]) =>
  ranges.some(([from, to]) => code >= from && code <= to);
const isNameStart = (code: number) =>
  code < 128 ? (kinds[code] & NAME_START) !== 0 : within(code, nameStartRanges) && !(code >= 0xdc00 && code <= 0xdfff);
const isName = (code: number) =>
  code < 128
    ? (kinds[code] & NAME) !== 0
    : code === 0xb7 || (code >= 0x300 && code <= 0x36f) || within(code, [[0x203f, 0x2040], ...nameStartRanges]);
const isSpace = (code: number) => code < 128 && (kinds[code] & SPACE) !== 0;

const predefined: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" };

/**
 * Goes through a well-formed XML 1.0 document tag by tag, holding nothing but the open elements.
 *
 * It refuses what is not well-formed and every document type declaration, so that there are no entities to expand and
 * nothing to fetch; the five predefined references and character references are replaced. Names are given without their
 * prefix, as prefixes vary from maker to maker and are sometimes not even declared. A bare `&` (one that starts no
 * reference) is taken as itself and counted in `bareAmpersands`.
 *
 * @remarks Each character is looked at once, so that time grows with the length of the document whatever it holds.
 * @see Extensible Markup Language (XML) 1.0, fifth edition, W3C 2008
 */
export class XmlScanner {
  /** Local name of the element just opened or closed. */
  name = '';
  /** Elements open now: 1 within the root. */
  depth = 0;
  /** The text just passed, references replaced. */
  text = '';
  /** How many stood in the document so far, and where the first. */
  bareAmpersands = 0;
  bareAmpersandPlace = '';

  readonly #document: string;
  #at = 0;
  #empty = false;
  #rooted = false;
  readonly #open: string[] = [];
  readonly #attributeNames: string[] = [];
  readonly #attributeValues: string[] = [];
  #attributeCount = 0;

  constructor(document: string) {
    this.#document = document;
    if (document.charCodeAt(0) === 0xfeff) this.#at = 1;
    if (document.startsWith('<?xml', this.#at) && isSpace(document.charCodeAt(this.#at + 5))) this.#declaration();
  }

  /** Moves on to the next tag or text. Blank text is passed over. */
  next(): XmlEvent {
    if (this.#empty) {
      this.#empty = false;
      return this.#leave();
    }
    const document = this.#document;
    for (;;) {
      if (this.#at >= document.length) {
        if (this.depth > 0) this.#refuse(`closed: the element ${this.#open[this.depth - 1]} stays open`);
        if (!this.#rooted) this.#refuse('XML with an element');
        return 'end';
      }
      if (document.charCodeAt(this.#at) !== 60) {
        if (this.#characters()) return 'text';
        continue;
      }
      const code = document.charCodeAt(this.#at + 1);
      if (code === 47) return this.#closeTag();
      if (code === 33) {
        if (document.startsWith('<!--', this.#at)) this.#comment();
        else if (document.startsWith('<![CDATA[', this.#at)) {
          if (this.#literal()) return 'text';
        } else this.#refuse('XML without a document type declaration');
      } else if (code === 63) this.#instruction();
      else return this.#openTag();
    }
  }

  /** Value of an attribute of the element just opened, by its full name; `undefined` where it has none. */
  attribute(name: string): string | undefined {
    for (let i = 0; i < this.#attributeCount; i++) {
      if (this.#attributeNames[i] === name) return this.#attributeValues[i];
    }
    return undefined;
  }

  /** After an element opened: visits each element directly within it, up to and including its end. */
  eachChild(visit: (name: string) => void): void {
    const inside = this.depth;
    for (;;) {
      const event = this.next();
      if (event === 'close') return;
      if (event !== 'open') continue;
      visit(this.name);
      // whatever the visitor left unread
      while (this.depth > inside) this.next();
    }
  }

  /** After an element opened: its own text, up to and including its end. Elements within are passed over. */
  content(): string {
    const inside = this.depth;
    let content = '';
    for (;;) {
      const event = this.next();
      if (event === 'text' && this.depth === inside) content += this.text;
      else if (event === 'close' && this.depth < inside) return content;
    }
  }

  /** Where the scanner stands. */
  place(): string {
    let line = 1;
    let start = 0;
    const end = Math.min(this.#at, this.#document.length);
    for (let at = this.#document.indexOf('\n'); at !== -1 && at < end; at = this.#document.indexOf('\n', at + 1)) {
      line++;
      start = at + 1;
    }
    return `line ${line}, column ${end - start + 1}`;
  }

  #refuse(rule: string, at = this.#at): never {
    this.#at = at;
    throw new InputError({
      reason: 'unreadable',
      argument: `data ${this.place()}`,
      rule,
      value: this.#document.slice(at, at + 41),
    });
  }

  #declaration(): void {
    const begin = this.#at;
    const end = this.#document.indexOf('?>', begin);
    const pattern =
      /^<\?xml\s+version\s*=\s*(?:"1\.\d+"|'1\.\d+')(?:\s+encoding\s*=\s*(?:"[A-Za-z][\w.-]*"|'[A-Za-z][\w.-]*'))?(?:\s+standalone\s*=\s*(?:"(?:yes|no)"|'(?:yes|no)'))?\s*\?>$/;
    // the longest sensible declaration is far shorter than this
    if (end < 0 || end - begin > 1000 || !pattern.test(this.#document.slice(begin, end + 2))) {
      this.#refuse('a complete XML declaration');
    }
    this.#at = end + 2;
  }

  #name(): string {
    const document = this.#document;
    const begin = this.#at;
    let at = begin;
    if (!isNameStart(document.charCodeAt(at))) this.#refuse('well-formed XML: a name');
    do at++;
    while (isName(document.charCodeAt(at)));
    this.#at = at;
    return document.slice(begin, at);
  }

  #spaces(): boolean {
    const begin = this.#at;
    while (isSpace(this.#document.charCodeAt(this.#at))) this.#at++;
    return this.#at > begin;
  }

  #openTag(): XmlEvent {
    const document = this.#document;
    const begin = this.#at;
    if (this.depth === 0 && this.#rooted) this.#refuse('the end: XML has one outermost element');
    this.#rooted = true;
    this.#at++;
    const name = this.#name();
    this.#attributeCount = 0;
    for (;;) {
      const spaced = this.#spaces();
      const code = document.charCodeAt(this.#at);
      if (code === 62) {
        this.#at++;
        break;
      }
      if (code === 47 && document.charCodeAt(this.#at + 1) === 62) {
        this.#at += 2;
        this.#empty = true;
        break;
      }
      if (!spaced) this.#refuse('well-formed XML: a tag that ends');
      this.#attribute();
    }
    if (this.depth >= MAX_DEPTH) {
      throw new InputError({
        reason: 'too-large',
        argument: 'data nesting',
        rule: `at most ${MAX_DEPTH} elements deep`,
        value: document.slice(begin, begin + 41),
      });
    }
    this.#open[this.depth++] = name;
    this.name = localName(name);
    return 'open';
  }

  #attribute(): void {
    const document = this.#document;
    const begin = this.#at;
    const name = this.#name();
    if (this.attribute(name) !== undefined) this.#refuse('well-formed XML: each attribute once', begin);
    this.#spaces();
    if (document.charCodeAt(this.#at) !== 61) this.#refuse('well-formed XML: a "=" after the attribute name');
    this.#at++;
    this.#spaces();
    const quote = document.charCodeAt(this.#at);
    if (quote !== 34 && quote !== 39) this.#refuse('well-formed XML: an attribute value in quotes');
    const from = ++this.#at;
    let at = from;
    let special = false;
    for (;;) {
      const code = document.charCodeAt(at);
      if (code === quote) break;
      if (code === 38 || code === 9 || code === 10 || code === 13) special = true;
      else if (code === 60 || !(code >= 32)) this.#refuse('well-formed XML: an attribute value that ends', at);
      else if (code >= 0xd800) at = this.#beyond(at);
      at++;
    }
    this.#attributeNames[this.#attributeCount] = name;
    // literal line ends and tabs become spaces; those given as references stay. XML 1.0, 3.3.3
    this.#attributeValues[this.#attributeCount++] = special
      ? this.#resolve(from, at, 'attribute')
      : document.slice(from, at);
    this.#at = at + 1;
  }

  #closeTag(): XmlEvent {
    const document = this.#document;
    if (this.depth === 0) this.#refuse('well-formed XML: an element to close');
    const name = this.#open[this.depth - 1];
    const begin = this.#at;
    this.#at += 2;
    if (!document.startsWith(name, this.#at)) this.#refuse(`well-formed XML: the end of ${name}`, begin);
    this.#at += name.length;
    this.#spaces();
    if (document.charCodeAt(this.#at) !== 62) this.#refuse(`well-formed XML: the end of ${name}`, begin);
    this.#at++;
    return this.#leave();
  }

  #leave(): XmlEvent {
    this.name = localName(this.#open[--this.depth]);
    return 'close';
  }

  /** Passes text up to the next tag; true when there is more than blanks. */
  #characters(): boolean {
    const document = this.#document;
    const length = document.length;
    const begin = this.#at;
    let at = begin;
    let blank = true;
    let special = false;
    for (; at < length; at++) {
      const code = document.charCodeAt(at);
      if (code === 60) break;
      if (code > 62 && code < 0xd800) blank = false;
      else if (code === 13) special = true;
      else if (code === 32 || code === 10 || code === 9) continue;
      else if (code === 38) {
        special = true;
        blank = false;
      } else if (code < 32) this.#refuse('well-formed XML: no control characters', at);
      else if (code >= 0xd800) {
        at = this.#beyond(at);
        blank = false;
      } else if (code === 62 && document.charCodeAt(at - 1) === 93 && document.charCodeAt(at - 2) === 93) {
        this.#refuse('well-formed XML: no "]]>" in text', at - 2);
      } else blank = false;
    }
    if (this.depth === 0 && !blank) this.#refuse('XML: text stands within elements');
    if (!blank) {
      this.text = special ? this.#resolve(begin, at, 'text') : document.slice(begin, at);
    }
    this.#at = at;
    return !blank;
  }

  /** Index of the last unit of the character at `at`, which lies beyond the plain ones. */
  #beyond(at: number): number {
    const code = this.#document.charCodeAt(at);
    if (code < 0xdc00) {
      const next = this.#document.charCodeAt(at + 1);
      if (next >= 0xdc00 && next < 0xe000) return at + 1;
    } else if (code >= 0xe000 && code < 0xfffe) return at;
    return this.#refuse('well-formed XML: no half characters', at);
  }

  #checkCharacters(from: number, to: number): void {
    for (let at = from; at < to; at++) {
      const code = this.#document.charCodeAt(at);
      if (code < 32 && !isSpace(code)) this.#refuse('well-formed XML: no control characters', at);
      if (code >= 0xd800) at = this.#beyond(at);
    }
  }

  #comment(): void {
    const end = this.#document.indexOf('--', this.#at + 4);
    if (end < 0 || this.#document.charCodeAt(end + 2) !== 62) this.#refuse('well-formed XML: a comment that ends');
    this.#checkCharacters(this.#at, end);
    this.#at = end + 3;
  }

  #literal(): boolean {
    const begin = this.#at + 9;
    if (this.depth === 0) this.#refuse('XML: text stands within elements');
    const end = this.#document.indexOf(']]>', begin);
    if (end < 0) this.#refuse('well-formed XML: a literal part that ends');
    this.#checkCharacters(begin, end);
    this.text = this.#resolve(begin, end, 'literal');
    this.#at = end + 3;
    return end > begin;
  }

  #instruction(): void {
    const begin = this.#at;
    this.#at += 2;
    const target = this.#name();
    if (target.toLowerCase() === 'xml') this.#refuse('well-formed XML: its declaration at the very start', begin);
    const end = this.#document.indexOf('?>', this.#at);
    if (end < 0 || (end > this.#at && !isSpace(this.#document.charCodeAt(this.#at)))) {
      this.#refuse('well-formed XML: a processing instruction that ends', begin);
    }
    this.#checkCharacters(this.#at, end);
    this.#at = end + 2;
  }

  /**
   * The text from `from` to `to`: references replaced but in a literal part, line ends made one `\n`; in an attribute
   * they and tabs become spaces.
   *
   * Pieces are joined in batches: a document of nothing but references would else fill the memory.
   */
  #resolve(from: number, to: number, where: 'text' | 'attribute' | 'literal'): string {
    const document = this.#document;
    let out = '';
    let pieces: string[] = [];
    let begin = from;
    const put = (piece: string, at: number, next: number) => {
      if (at > begin) pieces.push(document.slice(begin, at));
      pieces.push(piece);
      begin = next;
      if (pieces.length >= 8192) {
        out += pieces.join('');
        pieces = [];
      }
    };
    for (let at = from; at < to; at++) {
      const code = document.charCodeAt(at);
      if (code === 13) {
        const next = document.charCodeAt(at + 1) === 10 && at + 1 < to ? at + 2 : at + 1;
        put(where === 'attribute' ? ' ' : '\n', at, next);
        at = next - 1;
      } else if (where === 'attribute' && (code === 9 || code === 10)) put(' ', at, at + 1);
      else if (code === 38 && where !== 'literal') {
        const next = document.charCodeAt(at + 1);
        if (next === 35 || isNameStart(next)) {
          const end = this.#referenceEnd(at, to);
          if (end > 0) {
            put(this.#reference(document.slice(at + 1, end), at), at, end + 1);
            at = end;
            continue;
          }
        }
        if (this.bareAmpersands++ === 0) {
          this.#at = at;
          this.bareAmpersandPlace = this.place();
        }
      }
    }
    return out + pieces.join('') + document.slice(begin, to);
  }

  /** Index of the semicolon that ends the reference at `at`; 0 when a name runs on without one: then it is none. */
  #referenceEnd(at: number, to: number): number {
    const number = this.#document.charCodeAt(at + 1) === 35;
    let end = at + (number ? 2 : 1);
    // no reference is longer; leading zeros aside
    const limit = Math.min(to, at + 64);
    while (end < limit && isName(this.#document.charCodeAt(end))) end++;
    if (this.#document.charCodeAt(end) === 59 && end < to) return end;
    return number ? this.#refuse('well-formed XML: a complete character reference', at) : 0;
  }

  #reference(name: string, at: number): string {
    if (Object.hasOwn(predefined, name)) return predefined[name];
    const match = /^#(?:x([0-9a-fA-F]+)|([0-9]+))$/.exec(name);
    if (!match) {
      return this.#refuse(
        name.startsWith('#')
          ? 'well-formed XML: a complete character reference'
          : 'XML whose only entities are lt, gt, amp, quot and apos',
        at,
      );
    }
    const code = match[1] === undefined ? Number.parseInt(match[2], 10) : Number.parseInt(match[1], 16);
    const allowed =
      code === 9 ||
      code === 10 ||
      code === 13 ||
      (code >= 32 && code < 0xd800) ||
      (code >= 0xe000 && code < 0xfffe) ||
      (code >= 0x10000 && code <= 0x10ffff);
    if (!allowed) this.#refuse('well-formed XML: a reference to a character that XML allows', at);
    return String.fromCodePoint(code);
  }
}

function localName(name: string): string {
  const colon = name.lastIndexOf(':');
  return colon < 0 ? name : name.slice(colon + 1);
}
