/** Prints rows under their titles; the first two columns to the left, figures to the right, a blank line between groups. */
export function printTable(titles: readonly string[], rows: readonly (readonly string[])[]): void {
  const widths = titles.map((title, k) => Math.max(title.length, ...rows.map((cells) => cells[k].length)));
  const print = (cells: readonly string[]) =>
    console.log(cells.map((cell, k) => (k < 2 ? cell.padEnd(widths[k]) : cell.padStart(widths[k]))).join('  '));
  print(titles);
  rows.forEach((cells, i) => {
    if (i > 0 && cells[0] !== rows[i - 1][0]) console.log('');
    print(cells);
  });
}
