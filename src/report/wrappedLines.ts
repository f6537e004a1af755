import { textWidth } from './textWidth';

/** A text in lines no wider than `width`, parted at its spaces; a word that is wider by itself is parted anywhere. */
export function wrappedLines(text: string, width: number, size: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.trim().split(/\s+/)) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (textWidth(longer, size) <= width) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    line = '';
    for (const character of word) {
      if (line !== '' && textWidth(line + character, size) > width) {
        lines.push(line);
        line = '';
      }
      line += character;
    }
  }
  return [...lines, line];
}
