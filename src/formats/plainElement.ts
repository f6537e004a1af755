import type { XmlTags } from './XmlTags';

/** What {@link plainElement} answers where it takes nothing: the element is another kind of one, or the text ends within it. */
export const NOT_PLAIN = -1;
export const CUT = -2;

/** Elements within one another. */
const DEEPEST = 12;

/** Names and values of attributes. */
const MOST = 20;

/**
 * Goes through a whole element that is written as nearly all of a recording is: ASCII names that begin with a letter, quoted
 * values, text of printable ASCII without references, comments or any other markup.
 *
 * @param from - where its `<` stands
 * @param offset - from an index of the text to that of the tags
 * @param told - takes its tags
 * @returns the index after it, or why there is none; what was told is void then
 * @remarks Whatever it takes is well-formed, and says the same to any parser of XML; the rest is left to one.
 * @see Extensible Markup Language (XML) 1.0, fifth edition, W3C 2008, sections 2.4, 2.11, 3.1
 */
export function plainElement(text: string, from: number, offset: number, told: XmlTags): number {
  const { names, texts, attributes } = told;
  let depth = 0;
  let at = from;
  let justOpened = false;
  for (;;) {
    let to = at + 1;
    if (text.charCodeAt(to) === SLASH) {
      if (depth === 0) return NOT_PLAIN;
      const name = names[--depth];
      to += name.length + 1;
      if (!text.startsWith(name, at + 2) || text.charCodeAt(to) !== GREATER) return to >= text.length ? CUT : NOT_PLAIN;
      told.put(texts[depth], ++to + offset);
      justOpened = false;
    } else {
      to = endOfName(text, to);
      if (to === at + 1 || depth === DEEPEST) return to >= text.length ? CUT : NOT_PLAIN;
      const name = text.slice(at + 1, to);
      const first = told.listed;
      while (text.charCodeAt(to) === BLANK) {
        const begin = to + 1;
        to = endOfName(text, begin);
        if (to === begin) break;
        const quote = text.charCodeAt(to + 1);
        if (text.charCodeAt(to) !== EQUALS || (quote !== 34 && quote !== 39)) {
          return to + 1 >= text.length ? CUT : NOT_PLAIN;
        }
        const key = text.slice(begin, to);
        const end = endOfText(text, to + 2, quote);
        if (text.charCodeAt(end) !== quote) return end >= text.length ? CUT : NOT_PLAIN;
        for (let i = first; i < told.listed; i += 2) if (attributes[i] === key) return NOT_PLAIN;
        if (told.listed - first > MOST) return NOT_PLAIN;
        attributes[told.listed++] = key;
        attributes[told.listed++] = text.slice(to + 2, end);
        to = end + 1;
      }
      const closes = text.charCodeAt(to) === SLASH;
      if (closes) to++;
      if (text.charCodeAt(to) !== GREATER) return to >= text.length ? CUT : NOT_PLAIN;
      told.put(name, ++to + offset, first);
      if (closes) told.put('', to + offset);
      else {
        names[depth] = name;
        texts[depth++] = '';
      }
      justOpened = !closes;
    }
    at = to;
    if (depth === 0) return at;
    to = endOfBlanks(text, at);
    const blank = text.charCodeAt(to) === LESS;
    if (!blank) to = endOfText(text, to, LESS);
    if (text.charCodeAt(to) !== LESS) return to >= text.length ? CUT : NOT_PLAIN;
    // blanks between elements are only layout
    if (to > at && (justOpened || !blank)) texts[depth - 1] += lineEnds(text.slice(at, to));
    at = to;
  }
}

const BLANK = 32;
const SLASH = 47;
const LESS = 60;
const EQUALS = 61;
const GREATER = 62;

/** With line ends as XML has them, section 2.11. */
export const lineEnds = (text: string) => (text.includes('\r') ? text.replace(/\r\n?/g, '\n') : text);

/** The index of the first character that is no blank. */
export function endOfBlanks(text: string, from: number): number {
  let at = from;
  for (let code = text.charCodeAt(at); code === BLANK || (code >= 9 && code <= 13 && code !== 11 && code !== 12); ) {
    code = text.charCodeAt(++at);
  }
  return at;
}

/** Where a name ends that begins with a letter; where it begins if it doesn't. */
function endOfName(text: string, from: number): number {
  if (!isLetter(text.charCodeAt(from))) return from;
  let at = from + 1;
  for (
    let code = text.charCodeAt(at);
    isLetter(code) || (code >= 45 && code <= 58 && code !== SLASH) || code === 95;
  ) {
    code = text.charCodeAt(++at);
  }
  return at;
}

const isLetter = (code: number) => (code >= 97 && code <= 122) || (code >= 65 && code <= 90);

/** Where plain text ends: at a character that has a meaning of its own, or is not printable ASCII; in a text, at none of the line ends. */
function endOfText(text: string, from: number, until: number): number {
  const isText = until === LESS;
  let at = from;
  for (; ; at++) {
    const code = text.charCodeAt(at);
    // most are digits, what stands between them, or capitals
    if ((code > 39 && code < LESS) || (code > LESS && code < 93)) continue;
    if (code === until || code === LESS || code === 38 || !(code <= 126)) return at;
    if (code < BLANK ? !isText || !(code === 9 || code === 10 || code === 13) : isText && code === 93) return at;
  }
}
