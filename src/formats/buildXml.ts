import { XMLBuilder } from 'fast-xml-parser';
import { InputError } from '../model';

/** An element: its attributes by names that begin with `@`, its text as `#text`, and its children; `undefined` is none. */
export interface XmlElement {
  readonly [name: string]: XmlContent | readonly XmlContent[];
}
type XmlContent = string | XmlElement | undefined;

const references: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** Read back the text is the same: line ends and tabs would not be as themselves. XML 1.0, 2.11 and 3.3.3 */
const escaped = (_name: string, text: unknown): string =>
  String(text).replace(/[&<>"\t\n\r]/g, (character) => references[character] ?? `&#${character.charCodeAt(0)};`);

const builder = new XMLBuilder({
  ignoreAttributes: false,
  attributeNamePrefix: '@',
  format: true,
  indentBy: '',
  suppressEmptyNode: true,
  // an attribute whose value is "true" would else lose it
  suppressBooleanAttributes: false,
  processEntities: false,
  tagValueProcessor: escaped,
  attributeValueProcessor: escaped,
});

// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what XML can't hold
const impossible = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Surrogate}/u;

/** An XML 1.0 document of one outermost element, each element on a line of its own. Texts are to be {@link xmlText}. */
export const buildXml = (root: XmlElement): string =>
  builder.build({ '?xml': { '@version': '1.0', '@encoding': 'UTF-8' }, ...root });

/**
 * `text` unchanged, if XML can hold it.
 *
 * @throws {InputError} `wrong-type` for control characters and half characters, which it can't
 */
export function xmlText(text: string, argument: string): string {
  if (!impossible.test(text)) return text;
  throw new InputError({ reason: 'wrong-type', argument, rule: 'a string without control characters', value: text });
}
