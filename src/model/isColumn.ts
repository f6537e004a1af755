/** Whether a value is an array or a typed array, of this realm or another. */
export function isColumn(value: unknown): value is ArrayLike<number> {
  return Array.isArray(value) || (ArrayBuffer.isView(value) && 'length' in value);
}
