import { escapeMarkup } from './escapeMarkup';
import { Markup } from './Markup';

/** What can stand inside an element: strings are text and get escaped; null, undefined and false leave nothing. */
export type Content = Markup | string | number | null | undefined | false | readonly Content[];

/** Attribute values: undefined, null and false leave the attribute out, true writes it without a value. */
export type Attributes = Readonly<Record<string, string | number | boolean | null | undefined>>;

const childless = new Set(['meta', 'br', 'input', 'wbr']);

/** An HTML or SVG element with everything in it escaped. Names of elements and attributes come from the code, never from data. */
export function element(name: string, attributes: Attributes, ...content: readonly Content[]): Markup {
  let tag = name;
  for (const [key, value] of Object.entries(attributes)) {
    if (value === undefined || value === null || value === false) continue;
    tag += value === true ? ` ${key}` : ` ${key}="${escapeMarkup(String(value))}"`;
  }
  return new Markup(childless.has(name) ? `<${tag}>` : `<${tag}>${written(content)}</${name}>`);
}

function written(content: Content): string {
  if (content === null || content === undefined || content === false) return '';
  if (content instanceof Markup) return content.text;
  if (typeof content === 'string') return escapeMarkup(content);
  if (typeof content === 'number') return String(content);
  return content.map(written).join('');
}
