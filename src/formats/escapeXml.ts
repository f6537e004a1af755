import { InputError } from '../model';

// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what XML can't hold
const impossible = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Surrogate}/u;
const references: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/**
 * `text` for an XML document, in an element or an attribute: read back it is the same.
 *
 * @throws {InputError} `wrong-type` for control characters and half characters, which XML can't hold
 */
export function escapeXml(text: string, argument: string): string {
  if (impossible.test(text)) {
    throw new InputError({ reason: 'wrong-type', argument, rule: 'text without control characters', value: text });
  }
  return text.replace(/[&<>"\t\n\r]/g, (character) => references[character] ?? `&#${character.charCodeAt(0)};`);
}
