const decimal = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;

/** The number that `text` writes in decimal digits, blanks around it allowed; NaN where it writes none. */
export function parseDecimal(text: string): number {
  const trimmed = text.trim();
  return decimal.test(trimmed) ? Number(trimmed) : Number.NaN;
}

/** As {@link parseDecimal}; NaN too for a number too large to be held. */
export function parseFinite(text: string): number {
  const value = parseDecimal(text);
  return Number.isFinite(value) ? value : Number.NaN;
}
