/** Milliseconds as a short text with a fitting unit. */
export function showTime(milliseconds: number): string {
  const [value, unit] =
    milliseconds < 1e-3
      ? [milliseconds * 1e6, 'ns']
      : milliseconds < 1
        ? [milliseconds * 1e3, 'µs']
        : milliseconds < 1e3
          ? [milliseconds, 'ms']
          : [milliseconds / 1e3, 's'];
  return `${Number(value.toPrecision(3))} ${unit}`;
}
