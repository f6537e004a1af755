import type { Interval } from '../assess';

/** A mean offset with its side and interval: "3.0 m right (2.1–4.0)", "0.2 m left (−1.0 to 0.6)" across the line, right positive. */
export function describeSide(bias: number | null, interval: Interval | null): string {
  if (bias === null) return '–';
  const size = Math.abs(bias).toFixed(1);
  const side = Math.abs(bias) < 0.05 ? 'on the line' : `${size} m ${bias < 0 ? 'left' : 'right'}`;
  return interval === null ? side : `${side} (${ends(interval)})`;
}

function ends([low, high]: Interval): string {
  if (low < 0 && high > 0) return `−${(-low).toFixed(1)} to ${high.toFixed(1)}`;
  const sizes = [Math.abs(low), Math.abs(high)].sort((a, b) => a - b);
  return sizes.map((size) => size.toFixed(1)).join('–');
}
