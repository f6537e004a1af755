/**
 * A text without what would break a document or reorder the words around it: control characters that XML forbids, lone
 * surrogates and marks that turn the writing direction become U+FFFD, line ends and tabs a blank.
 */
export function plainText(text: string): string {
  return text.replace(/[\p{Cc}\p{Cs}\u202A-\u202E\u2066-\u2069\uFFFE\uFFFF]/gu, (character) =>
    /[\t\n\r]/.test(character) ? ' ' : '\uFFFD',
  );
}
