import { InputError } from '../model';
import { decodeText } from './decodeText';
import type { IssueLog } from './IssueLog';
import { isPlainXml } from './isPlainXml';
import { checkSize, gunzip, isGzip } from './unpack';
import { withoutPadding } from './withoutPadding';
import { XmlReader } from './XmlReader';

/** An XML document opened for reading. */
export interface OpenXml {
  readonly xml: XmlReader;
  /**
   * Call after the outermost element: nothing may follow it; what was mended goes to the log.
   *
   * @param found - whole recordings: one that is cut off before there is any is refused
   */
  finish(issues: IssueLog, found: number): void;
}

/**
 * A reader that has just opened the outermost element of an XML document, its name checked.
 *
 * Blanks before the XML declaration, which some makers write, are passed over.
 *
 * @param ending - whether a document that is cut off is read up to there
 * @throws {InputError} `unreadable` when the data is not XML or another kind of XML
 */
export function openXml(
  data: string | Uint8Array,
  root: string,
  format: string,
  most: number,
  ending: 'must be there' | 'may be missing' = 'must be there',
): OpenXml {
  checkSize(data, most);
  const whole = typeof data !== 'string' && isGzip(data) ? gunzip(data, most) : data;
  const padded = isPlainXml(whole) ? whole : decodeText(whole, most);
  const document = withoutPadding(padded);
  const padding = padded.length - document.length;
  const { xml, blanks } = enterXml(document, ending);
  if (xml.name !== root) {
    throw new InputError({
      reason: 'unreadable',
      argument: 'data',
      rule: `${format}, whose outermost element is ${root}`,
      value: xml.name,
    });
  }
  return {
    xml,
    finish(issues, found) {
      while (xml.next() !== 'end');
      if (xml.cutOff) {
        if (found === 0) throw xml.cutOff;
        issues.note('cut-off', () => xml.place());
      }
      const [first] = xml.bareAmpersands;
      if (first !== undefined) issues.note('bare-ampersand', () => xml.placeOf(first), xml.bareAmpersands.length);
      if (padding > 0) issues.note('trailing-bytes', () => xml.place(), padding);
      if (blanks > 0) issues.note('leading-blanks', () => 'line 1');
    },
  };
}

/** A reader that has just opened the outermost element, whatever it is, and the blanks passed over before. */
export function enterXml(
  document: string | Uint8Array,
  ending: 'must be there' | 'may be missing' = 'must be there',
): { xml: XmlReader; blanks: number } {
  const beginning = typeof document === 'string' ? document.slice(0, 1000) : '';
  const blanks = /^\ufeff?[ \t\r\n]+(?=<\?xml)/.exec(beginning)?.[0].length ?? 0;
  const xml = new XmlReader(blanks > 0 ? document.slice(blanks) : document, ending);
  xml.next();
  return { xml, blanks };
}
