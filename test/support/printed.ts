/** The rows of a printed table: the first line names the columns, blanks part them. */
export function rowsOf(table: string): Record<string, string>[] {
  const [head, ...lines] = table.trim().split('\n');
  const names = head.split(' ');
  return lines.map((line) => {
    const cells = line.split(' ');
    if (cells.length !== names.length) throw new Error(`not ${names.length} cells: ${line}`);
    return Object.fromEntries(names.map((name, i) => [name, cells[i]]));
  });
}

/** Degrees from `40:10:24.5N`, south and west negative; a bare `306:52:05.37` too. */
export function degrees(text: string): number {
  const parts = text.match(/^(\d+):(\d+):([\d.]+)([NSEW]?)$/);
  if (!parts) throw new Error(`not degrees, minutes and seconds: ${text}`);
  const value = Number(parts[1]) + Number(parts[2]) / 60 + Number(parts[3]) / 3600;
  return parts[4] === 'S' || parts[4] === 'W' ? -value : value;
}

/** Half a unit of the last digit of a printed number, or of the seconds of a printed angle. */
export function halfUnit(text: string): number {
  return 0.5 * 10 ** -(text.match(/\.(\d+)/)?.[1].length ?? 0);
}

/** Unsigned difference of two angles in degrees, the short way round. */
export function angleBetween(a: number, b: number): number {
  const turn = Math.abs(a - b) % 360;
  return Math.min(turn, 360 - turn);
}
