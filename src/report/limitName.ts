/** What a row's `lineLimit` is: the corridor where it states one that is wider than the doubt, else that doubt. */
export function limitName(rows: readonly { readonly lineLimit: number; readonly sideLimit: number }[]): string {
  const corridors = rows.filter(({ lineLimit, sideLimit }) => lineLimit > sideLimit).length;
  if (corridors === rows.length) return 'the corridor';
  return corridors === 0
    ? 'the line’s own uncertainty'
    : 'the corridor, or the line’s own uncertainty where none is stated,';
}
