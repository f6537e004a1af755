const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/**
 * Text as it may stand in HTML, in SVG and in their attributes.
 *
 * Control characters that XML forbids, lone surrogates and marks that turn the writing direction become U+FFFD: a name
 * from a file must not be able to break the document or to reorder the words around it.
 */
export function escapeMarkup(text: string): string {
  return text
    .replace(/[\p{Cc}\p{Cs}\u202A-\u202E\u2066-\u2069\uFFFE\uFFFF]/gu, (character) =>
      /[\t\n\r]/.test(character) ? ' ' : '\uFFFD',
    )
    .replace(/[&<>"']/g, (character) => entities[character]);
}
