import { SaxesParser } from 'saxes';
import { InputError, type Steps } from '../model';
import { bareAmpersands } from './bareAmpersands';
import { CUT, endOfBlanks, lineEnds, NOT_PLAIN, plainElement } from './plainElement';
import { XmlTags } from './XmlTags';

/** A recording nests about ten deep; a document deeper than this is an attack or an accident. */
const MAX_DEPTH = 256;

/** Characters of an attribute, about: ten thousand times what any recorder writes. */
const MAX_ATTRIBUTE = 2 ** 20;

/** Characters parsed at a time: what is parsed and not yet read is held in memory. */
const PIECE = 16_384;

/** Characters of it within which an element that goes on in the next piece is left for that. */
const KEPT = 4096;

/** Tags of a piece that the parser is given singly, so that what follows may be read without it. */
const SINGLE = 32;

/** What a bare ampersand is longer by once it is written as a reference. */
const GROWTH = '&amp;'.length - 1;

/**
 * Goes through a well-formed XML 1.0 document tag by tag, holding nothing but the open elements and one piece of the
 * document.
 *
 * What is not well-formed is refused, and so is every document type declaration: there are no entities to expand and
 * nothing to fetch. Names are given without their prefix, as prefixes vary from maker to maker and are sometimes not even
 * declared. A bare `&`, which starts no reference, is taken as itself. A document that ends too soon is refused, unless its
 * ending `may be missing`: then what is open at its end closes there, and `cutOff` says so.
 *
 * @see Extensible Markup Language (XML) 1.0, fifth edition, W3C 2008
 */
export class XmlReader {
  /** Local name of the element opened last. */
  name = '';
  /** Elements open now: 1 within the root. */
  depth = 0;
  /** Where ampersands stand that start no reference. */
  readonly bareAmpersands: readonly number[];
  /** Why it would be refused: it ended with elements open, which were closed. Set when they close, no sooner. */
  cutOff: InputError | undefined;

  readonly #document: string | Uint8Array;
  /** The document with its bare ampersands written as references, or its bytes. */
  readonly #written: string | Uint8Array;
  /** Of the first piece: that leaves a byte order mark out. */
  #decoder = new TextDecoder('utf-8', { fatal: true });
  readonly #laterDecoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
  readonly #parser = new SaxesParser({
    xmlns: false,
    position: false,
    defaultXMLVersion: '1.0',
    forceXMLVersion: true,
  });
  /** What was parsed last. */
  readonly #parsed = new XmlTags();
  #read = 0;
  #fed = 0;
  /** Of that, what a step has told of. */
  #told = 0;
  #closed = false;
  /** Characters that the parser was given, and that went past it. */
  #given = 0;
  #passed = 0;
  /** Whether the parser stands just behind a tag. */
  #behindTag = false;
  /** Length of the parser's text when it was last made one string. */
  #flat = 0;
  /** Why the document was refused: told when all before it is read, so that what comes first is told first. */
  #refusal: InputError | undefined;
  /** Text of each element that the parser is in. */
  readonly #texts: string[] = [];
  #justOpened = false;
  readonly #ending: 'must be there' | 'may be missing';

  /** @param document - its text, or its bytes where they are {@link plainXml}: these are decoded as they are parsed */
  constructor(document: string | Uint8Array, ending: 'must be there' | 'may be missing' = 'must be there') {
    this.#ending = ending;
    this.#document = document;
    if (typeof document === 'string') {
      this.bareAmpersands = bareAmpersands(document);
      this.#written = this.bareAmpersands.length === 0 ? document : withReferences(document, this.bareAmpersands);
      const begin = document.search(/[^\s\ufeff]/);
      if (begin >= 0 && document[begin] !== '<') throw this.#refuse('XML', begin);
      const half = document.search(/\p{Surrogate}/u);
      if (half >= 0) throw this.#refuse('well-formed XML: no half characters', half);
    } else {
      this.bareAmpersands = [];
      this.#written = document;
    }
    const parser = this.#parser;
    parser.on('error', ({ message }) => {
      throw this.#refuse(`well-formed XML (${message.replace(/\.$/, '')})`, this.#original(this.#place() - 1));
    });
    parser.on('doctype', (text) => {
      const start = this.#place() - text.length - '<!DOCTYPE>'.length;
      throw this.#refuse('XML without a document type declaration', start);
    });
    parser.on('opentag', (tag) => {
      if (this.#texts.length >= MAX_DEPTH) {
        throw new InputError({
          reason: 'too-large',
          argument: 'data nesting',
          rule: `at most ${MAX_DEPTH} elements deep`,
          value: `<${tag.name}>`,
        });
      }
      this.#texts.push('');
      this.#justOpened = true;
      const parsed = this.#parsed;
      const first = parsed.listed;
      for (const [name, value] of Object.entries(tag.attributes)) {
        parsed.attributes[parsed.listed++] = name;
        parsed.attributes[parsed.listed++] = value;
      }
      parsed.put(tag.name, this.#place(), first);
    });
    parser.on('closetag', () => {
      this.#parsed.put(this.#texts.pop() as string, this.#place());
      this.#justOpened = false;
    });
    const addText = (text: string) => {
      // blanks between elements are only layout
      if (this.#justOpened || text.trim() !== '') this.#texts[this.#texts.length - 1] += text;
    };
    parser.on('text', (text) => {
      if (this.#texts.length > 0) addText(text);
    });
    parser.on('cdata', addText);
  }

  /** Moves on to the next beginning or end of an element. */
  next(): 'open' | 'close' | 'end' {
    while (this.#read >= this.#parsed.count) {
      if (this.#refusal) throw this.#refusal;
      if (this.#closed) return 'end';
      this.#parseOn();
    }
    const { words, firsts } = this.#parsed;
    if (firsts[this.#read++] < 0) {
      this.depth--;
      return 'close';
    }
    this.depth++;
    const word = words[this.#read - 1];
    this.name = word.indexOf(':') < 0 ? word : word.slice(word.lastIndexOf(':') + 1);
    return 'open';
  }

  /** Value of an attribute of the element just opened, nothing of it read yet, by its full name; `undefined` where it has none. */
  attribute(name: string): string | undefined {
    const { attributes, firsts, count, listed } = this.#parsed;
    let next = this.#read;
    while (next < count && firsts[next] < 0) next++;
    const end = next < count ? firsts[next] : listed;
    for (let i = firsts[this.#read - 1]; i < end; i += 2) if (attributes[i] === name) return attributes[i + 1];
    return undefined;
  }

  /** After an element opened: visits each element directly within it, up to and including its end. */
  eachChild(visit: (name: string) => void): void {
    const inside = this.depth;
    while (this.next() === 'open') {
      visit(this.name);
      // whatever the visitor left unread
      while (this.depth > inside) this.next();
    }
  }

  /** As `eachChild`, for visits that take long: steps of them, and one whenever another piece of the document was parsed. */
  *eachChildInSteps(visit: (name: string) => Steps<void> | undefined): Steps<void> {
    const inside = this.depth;
    while (this.next() === 'open') {
      const steps = visit(this.name);
      if (steps) yield* steps;
      while (this.depth > inside) this.next();
      if (this.#fed === this.#told) continue;
      this.#told = this.#fed;
      const of = this.#written.length;
      yield { done: Math.min(this.#fed, of), of, what: 'read' };
    }
  }

  /** After an element opened: its own text, up to and including its end. Elements within are passed over. */
  content(): string {
    const inside = this.depth;
    while (this.depth >= inside) this.next();
    return this.#parsed.words[this.#read - 1];
  }

  /** Where in the document the tag just read ends. */
  place(): string {
    return this.placeOf(this.#original(this.#read === 0 ? 0 : this.#parsed.ends[this.#read - 1]));
  }

  /** Line and column of an index of the document. */
  placeOf(index: number): string {
    const text = this.#text();
    let line = 1;
    let start = 0;
    for (let at = text.indexOf('\n'); at !== -1 && at < index; at = text.indexOf('\n', at + 1)) {
      line++;
      start = at + 1;
    }
    return `line ${line}, column ${index - start + 1}`;
  }

  #parseOn(): void {
    this.#parsed.count = this.#parsed.listed = this.#read = 0;
    const closing = this.#fed >= this.#written.length;
    try {
      if (!closing) {
        this.#parse(this.#piece());
        this.#flatten();
      } else {
        this.#parser.close();
        this.#closed = true;
      }
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      if (!closing || this.#ending === 'must be there' || this.#texts.length === 0) {
        this.#refusal = error;
        return;
      }
      this.cutOff = error;
      this.#closed = true;
      for (const _ of this.#texts.splice(0)) this.#parsed.put('', this.#place());
    }
  }

  /**
   * Parses a piece: elements written plainly, which begin behind a tag, by themselves, in a part of the time; all else by the
   * parser, for which those have not been there.
   */
  #parse(piece: string): void {
    const parsed = this.#parsed;
    let at = 0;
    for (let single = 0; at < piece.length; ) {
      const begin =
        this.#behindTag && this.#texts.length > 0 && this.#texts.length < MAX_DEPTH / 2 ? endOfBlanks(piece, at) : -1;
      let end = begin === piece.length ? CUT : NOT_PLAIN;
      if (piece[begin] === '<') {
        const { count, listed } = parsed;
        end = plainElement(piece, begin, this.#given + this.#passed - at, parsed);
        if (end > 0) {
          if (this.#justOpened) this.#texts[this.#texts.length - 1] += lineEnds(piece.slice(at, begin));
          this.#justOpened = false;
          this.#passed += end - at;
          at = end;
          continue;
        }
        parsed.count = count;
        parsed.listed = listed;
      }
      if (end === CUT && piece.length - at < KEPT && this.#fed < this.#written.length) {
        const left = piece.slice(at);
        this.#fed -= typeof this.#written === 'string' ? left.length : new TextEncoder().encode(left).length;
        return;
      }
      const next = single++ < SINGLE ? piece.indexOf('>', at) : -1;
      const to = next < 0 ? piece.length : next + 1;
      this.#parser.write(piece.slice(at, to));
      this.#given += to - at;
      this.#behindTag = parsed.count > 0 && parsed.ends[parsed.count - 1] === this.#given + this.#passed;
      at = to;
    }
  }

  /** Where in the document, as it is written, the parser stands while it tells of something. */
  #place(): number {
    return this.#parser.position + this.#passed;
  }

  /**
   * Refuses an attribute longer than any is, and makes one string of a long text.
   *
   * The parser puts a comment, an instruction or a value together letter by letter where it must. Engines keep that as a
   * chain of two letters a link, thirty times the text; the first letter asked for makes one string of it.
   */
  #flatten(): void {
    const { text, q } = this.#parser as unknown as { readonly text: string; readonly q: number | null };
    if (q !== null && text.length > MAX_ATTRIBUTE) {
      throw new InputError({
        reason: 'too-large',
        argument: `data ${this.placeOf(this.#original(this.#place()))}`,
        rule: `attributes of at most ${MAX_ATTRIBUTE} characters`,
        value: text.slice(0, 41),
      });
    }
    if (text.length < this.#flat) this.#flat = 0;
    if (text.length > 1.02 * this.#flat + 16 * PIECE && text.charCodeAt(0) >= 0) this.#flat = text.length;
  }

  /** What comes next to be parsed. */
  #piece(): string {
    const from = this.#fed;
    const written = this.#written;
    this.#fed = from + PIECE;
    if (typeof written === 'string') return written.slice(from, this.#fed);
    // a character goes on for up to 3 bytes that begin with the bits 10
    for (let back = 0; back < 3 && (written[this.#fed] & 0xc0) === 0x80; back++) this.#fed--;
    try {
      return this.#decoder.decode(written.subarray(from, this.#fed));
    } catch {
      throw new InputError({ reason: 'unreadable', argument: 'data', rule: 'text encoded as utf-8', value: written });
    } finally {
      this.#decoder = this.#laterDecoder;
    }
  }

  /** The whole of it, which only a place in it needs. */
  #text(): string {
    return typeof this.#document === 'string' ? this.#document : new TextDecoder().decode(this.#document);
  }

  #refuse(rule: string, index: number): InputError {
    const text = this.#text();
    const value = text.slice(index, index + 41) || text.slice(-41);
    return new InputError({ reason: 'unreadable', argument: `data ${this.placeOf(index)}`, rule, value });
  }

  /** The index in the document as it was given. */
  #original(index: number): number {
    const { bareAmpersands } = this;
    let before = 0;
    while (before < bareAmpersands.length && bareAmpersands[before] + before * GROWTH < index) before++;
    return index - before * GROWTH;
  }
}

function withReferences(document: string, bare: readonly number[]): string {
  const pieces = bare.map((at, i) => document.slice(i === 0 ? 0 : bare[i - 1] + 1, at));
  return [...pieces, document.slice(bare[bare.length - 1] + 1)].join('&amp;');
}
