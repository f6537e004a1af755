/** Null of nothing. */
export function mean(values: readonly number[]): number | null {
  return values.length === 0 ? null : values.reduce((sum, value) => sum + value / values.length, 0);
}
