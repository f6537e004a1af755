/** The text without the characters at its end that are `loose`, an expression for one character; linear, as no `…*$` is. */
export function withoutEnd(text: string, loose: RegExp): string {
  let end = text.length;
  while (end > 0 && loose.test(text[end - 1])) end--;
  return text.slice(0, end);
}
