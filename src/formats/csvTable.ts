import { writeDecimal } from './writeDecimal';

/** What a spreadsheet would run as a formula, or has been guarded already. */
const formula = /^'*(?:\s*[=+\-@\uFF0B\uFF0D\uFF1D\uFF20]|[\t\r\n])/;

/** Lines joined at a time: as many small texts at once as are soon gone. */
const BATCH = 500;

/**
 * A table by RFC 4180: commas, rows end in CR LF, cells quoted where they hold a comma, a quote or a line end. Numbers have
 * all their digits and no exponent; null and NaN are empty cells.
 *
 * Text that a spreadsheet would run as a formula gets an apostrophe before it, as names come from files. So does text that
 * would begin so without the apostrophes it begins with: {@link unguarded} gives back every text as it was.
 *
 * @see RFC 4180, Common Format and MIME Type for Comma-Separated Values Files, 2005, section 2
 */
export function csvTable(rows: Iterable<readonly (string | number | null)[]>): string {
  let table = '';
  let lines: string[] = [];
  for (const cells of rows) {
    lines.push(`${cells.map(csvCell).join(',')}\r\n`);
    if (lines.length < BATCH) continue;
    table += lines.join('');
    lines = [];
  }
  return table + lines.join('');
}

function csvCell(value: string | number | null): string {
  if (value === null) return '';
  if (typeof value === 'number') return Number.isFinite(value) ? writeDecimal(value) : '';
  const safe = formula.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** The text of a cell without the apostrophe that {@link csvTable} put before it. */
export function unguarded(cell: string): string {
  return cell.startsWith("'") && formula.test(cell.slice(1)) ? cell.slice(1) : cell;
}
