/** Columns of text for a terminal, as wide as they need to be; no trailing blanks. */
export function textTable(
  head: readonly string[],
  rows: readonly (readonly string[])[],
  align: readonly ('left' | 'right')[],
): string {
  const all = [head, ...rows];
  const widths = head.map((_, k) => Math.max(...all.map((row) => [...row[k]].length)));
  return all
    .map((row) =>
      row
        .map((cell, k) => {
          const blanks = ' '.repeat(widths[k] - [...cell].length);
          return align[k] === 'right' ? blanks + cell : cell + blanks;
        })
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}
