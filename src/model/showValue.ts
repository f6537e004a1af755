/** A short, one-line picture of any value for an error message. Never throws. */
export function showValue(value: unknown): string {
  if (typeof value === 'string') return `'${value.slice(0, 40)}${value.length > 40 ? '…' : ''}'`;
  if (typeof value === 'function') return 'a function';
  if (Array.isArray(value)) {
    if (value.length === 0) return 'an empty array';
    const shown = value.slice(0, 4).map((item) => (typeof item === 'object' && item !== null ? '…' : showValue(item)));
    return `[${shown.join(', ')}${value.length > 4 ? ', …' : ''}]`;
  }
  if (ArrayBuffer.isView(value)) return `${value.constructor.name} of ${value.byteLength} bytes`;
  if (typeof value === 'object' && value !== null) return 'an object';
  return String(value);
}
