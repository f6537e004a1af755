/** What no decimal number holds: not the letters of `Infinity` or of `0x10`, which {@link Number} takes. */
const foreign = /[^\d.eE+\s-]/;

/** The powers of ten that a double holds exactly. */
const tens = Float64Array.from({ length: 23 }, (_, power) => Number(`1e${power}`));

/**
 * The number that `text` writes in decimal digits from one index to another, blanks around it allowed; NaN where it writes none.
 *
 * @remarks The digits of most are a whole number below 2⁵³, and their decimal places at most 22: then the division, of two
 * numbers that are exact, rounds once, and so gives what {@link Number} does.
 * @see Clinger, How to read floating point numbers accurately, PLDI 1990, doi:10.1145/93542.93557
 */
export function parseDecimal(text: string, from = 0, to = text.length): number {
  const sign = text.charCodeAt(from);
  const begin = sign === 45 || sign === 43 ? from + 1 : from;
  let digits = 0;
  let point = -1;
  for (let at = begin; at < to; at++) {
    const digit = text.charCodeAt(at) - 48;
    if (digit >= 0 && digit <= 9) digits = digits * 10 + digit;
    else if (digit === -2 && point < 0) point = at;
    else return parseSlowly(text.slice(from, to));
  }
  const places = point < 0 ? 0 : to - point - 1;
  if (to - begin - (point < 0 ? 0 : 1) < 1) return Number.NaN;
  if (digits > Number.MAX_SAFE_INTEGER || places >= tens.length) return Number(text.slice(from, to));
  const value = digits / tens[places];
  return sign === 45 ? -value : value;
}

function parseSlowly(text: string): number {
  const value = Number(text);
  return foreign.test(text) || (value === 0 && text.trim() === '') ? Number.NaN : value;
}

/** As {@link parseDecimal}; NaN too for a number too large to be held. */
export function parseFinite(text: string, from?: number, to?: number): number {
  const value = parseDecimal(text, from, to);
  return Number.isFinite(value) ? value : Number.NaN;
}
