import { parseFinite } from './parseDecimal';

/** An attribute as the XML writers wrote it, in its own type again. */
export function typedValue(text: string, type: string | undefined): string | number | boolean {
  if (type === 'boolean') return text === 'true';
  const value = type === 'number' ? parseFinite(text) : Number.NaN;
  return Number.isNaN(value) ? text : value;
}
