import { plainText } from './plainText';

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/**
 * Text as it may stand in HTML, in SVG and in their attributes, made {@link plainText} first: a name from a file must not be
 * able to break the document or to reorder the words around it.
 */
export function escapeMarkup(text: string): string {
  return plainText(text).replace(/[&<>"']/g, (character) => entities[character]);
}
