import { XMLBuilder } from 'fast-xml-parser';
import { InputError } from '../model';

/** An element: its attributes by names that begin with `@`, its text as `#text`, and its children; `undefined` is none. */
export interface XmlElement {
  readonly [name: string]: XmlContent | readonly XmlContent[];
}
type XmlContent = string | XmlElement | undefined;

const references: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** Read back the text is the same: line ends and tabs would not be as themselves. XML 1.0, 2.11 and 3.3.3 */
const special = /[&<>"\t\n\r]/g;
const escaped = (_name: string, given: unknown): string => {
  const text = String(given);
  // most are numbers and times
  if (text.search(special) < 0) return text;
  return text.replace(special, (character) => references[character] ?? `&#${character.charCodeAt(0)};`);
};

const settings = {
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
};

/** Elements joined at a time: as many small texts at once as are soon gone. */
const BATCH = 500;

/** The content of a segment comes as {@link writtenRun}. */
const documents = new XMLBuilder({ ...settings, stopNodes: ['gpx.trk.trkseg'] });

// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what XML can't hold
const impossible = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Surrogate}/u;

/** An XML 1.0 document of one outermost element, each element on a line of its own. Texts are to be {@link xmlText}. */
export const buildXml = (root: XmlElement): string =>
  documents.build({ '?xml': { '@version': '1.0', '@encoding': 'UTF-8' }, ...root });

/**
 * So many elements written out, each on lines of its own: content for a `trkseg`, so that its points need not be held as objects.
 *
 * @param element - what needs no escape, as numbers and times don't
 */
export function writtenRun(count: number, element: (index: number) => string): string {
  const batches: string[] = [];
  for (let from = 0; from < count; from += BATCH) {
    batches.push(Array.from({ length: Math.min(BATCH, count - from) }, (_, k) => element(from + k)).join('\n'));
  }
  return ['', ...batches, ''].join('\n');
}

/** An element of a run on a line of its own; nothing where its content is unknown. */
export const writtenLine = (name: string, content: string | undefined): string =>
  content === undefined ? '' : `<${name}>${content}</${name}>\n`;

/**
 * `text` unchanged, if XML can hold it.
 *
 * @throws {InputError} `wrong-type` for control characters and lone surrogates, which it can't
 */
export function xmlText(text: string, argument: string): string {
  if (!impossible.test(text)) return text;
  throw new InputError({ reason: 'wrong-type', argument, rule: 'a string without control characters', value: text });
}
