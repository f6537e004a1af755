/** The shortest decimal digits that read back as `value`, never with an exponent: XML's `decimal` has none. */
export function writeDecimal(value: number): string {
  const text = String(value);
  if (!text.includes('e')) return text;
  const match = /^(-?)(\d)(?:\.(\d+))?e([+-]\d+)$/.exec(text);
  if (!match) return text;
  const [, sign, first, rest = '', exponent] = match;
  const digits = first + rest;
  const shift = Number(exponent);
  return shift < 0 ? `${sign}0.${'0'.repeat(-shift - 1)}${digits}` : `${sign}${digits.padEnd(shift + 1, '0')}`;
}
