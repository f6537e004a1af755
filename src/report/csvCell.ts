/**
 * One cell by RFC 4180: quoted where it holds a comma, a quote or a line break.
 *
 * Text that a spreadsheet would run as a formula gets an apostrophe before it: names come from files.
 */
export function csvCell(value: string | number | null): string {
  if (value === null) return '';
  if (typeof value === 'number') return Number.isFinite(value) ? String(value) : '';
  const safe = /^\s*[=+\-@\uFF0B\uFF0D\uFF1D\uFF20]|^[\t\r\n]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
