/** Pixels a text of the pictures takes at most, by the widest of the usual sans-serif faces: nothing can be measured here. */
export function textWidth(text: string, size = 12): number {
  return (
    [...text].reduce(
      (sum, character) => sum + (/[\u1100-\uFFDC\u{1F000}-\u{3FFFF}]/u.test(character) ? 1.05 : 0.62),
      0,
    ) * size
  );
}

/** The text, its end cut off for an ellipsis where it would be wider than `width`. */
export function shortened(text: string, width: number, size = 12): string {
  const characters = [...text];
  if (textWidth(text, size) <= width) return text;
  while (characters.length > 1 && textWidth(`${characters.join('')}…`, size) > width) characters.pop();
  return `${characters.join('').trimEnd()}…`;
}
