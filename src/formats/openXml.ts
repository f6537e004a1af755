import { InputError } from '../errors';
import { decodeText } from './decodeText';
import { XmlScanner } from './XmlScanner';

/**
 * A scanner that has just opened the outermost element of an XML document, its name checked.
 *
 * Blanks before the XML declaration, which some makers write, are passed over: `blanks` counts them.
 *
 * @throws {InputError} `unreadable` when the data is not XML or another kind of XML
 */
export function openXml(data: string | Uint8Array, root: string, format: string): { xml: XmlScanner; blanks: number } {
  const text = decodeText(data);
  const blanks = /^\ufeff?[ \t\r\n]+(?=<\?xml)/.exec(text.slice(0, 1000))?.[0].length ?? 0;
  const xml = new XmlScanner(blanks > 0 ? text.slice(blanks) : text);
  xml.next();
  if (xml.name !== root) {
    throw new InputError({
      reason: 'unreadable',
      argument: 'data',
      rule: `${format}, whose outermost element is ${root}`,
      value: xml.name,
    });
  }
  return { xml, blanks };
}
