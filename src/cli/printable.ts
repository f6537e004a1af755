/**
 * A text that a terminal only shows: control characters, which could move the cursor, wipe lines or worse, and marks that
 * turn the writing direction become U+FFFD. Tabs and line ends stay.
 */
export function printable(text: string): string {
  return text.replace(/(?![\t\n]|\r\n)[\p{Cc}\u202A-\u202E\u2066-\u2069]/gu, '\uFFFD');
}
