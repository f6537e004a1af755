/** What no decimal number holds: not the letters of `Infinity` or of `0x10`, which {@link Number} takes. */
const foreign = /[^\d.eE+\s-]/;

/** The number that `text` writes in decimal digits, blanks around it allowed; NaN where it writes none. */
export function parseDecimal(text: string): number {
  const value = Number(text);
  return foreign.test(text) || (value === 0 && text.trim() === '') ? Number.NaN : value;
}

/** As {@link parseDecimal}; NaN too for a number too large to be held. */
export function parseFinite(text: string): number {
  const value = parseDecimal(text);
  return Number.isFinite(value) ? value : Number.NaN;
}
