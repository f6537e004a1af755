import type { Recording } from '../model';

/** The stretches of a recording between its gaps: first fix, and the one after the last. */
export function segmentsOf({ gapBefore }: Pick<Recording, 'gapBefore'>): { from: number; to: number }[] {
  const segments: { from: number; to: number }[] = [];
  for (let i = 0; i < gapBefore.length; i++) {
    if (i === 0 || gapBefore[i]) segments.push({ from: i, to: i + 1 });
    else segments[segments.length - 1].to = i + 1;
  }
  return segments;
}
