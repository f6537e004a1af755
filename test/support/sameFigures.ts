import { hausdorff } from 'datumline';
import { expect } from 'vitest';

/**
 * Expects two documents that different engines computed to be the same: every number to a millionth, drawn lines to what they
 * are thinned by, sentences but for the last digit of a number in them, which a last bit may round either way, all else to the letter. Returns how many numbers and lines there were.
 */
export function sameFigures(ours: unknown, theirs: unknown, at: string): { numbers: number; lines: number } {
  let numbers = 0;
  let lines = 0;
  const compare = (ours: unknown, theirs: unknown, at: string): void => {
    if (typeof ours === 'number') {
      numbers++;
      // a corner's turn is in degrees, between two edges that a last bit may choose: far below what is shown of it
      const unit = at.endsWith('.turn') ? 1e-2 : 0;
      if (!(Math.abs(ours - (theirs as number)) <= unit + 1e-6 * Math.max(1, Math.abs(ours) / 100)))
        throw new Error(`${at}: ${theirs} there, ${ours} here`);
    } else if (typeof ours === 'object' && ours !== null && 'lon' in ours && 'lat' in ours) {
      // drawn: thinned to 5 cm, or 20, and where two vertices would do it is a last bit that chooses
      const both = [ours, theirs].map((line) => line as { lon: number[]; lat: number[] });
      if (both.some(({ lon }) => lon.length < 2)) expect(both[1].lon).toHaveLength(both[0].lon.length);
      else expect(hausdorff(both[0], both[1]).distance, at).toBeLessThan(0.25);
      lines++;
    } else if (typeof ours === 'object' && ours !== null) {
      if (Object.keys(ours).join() !== Object.keys(theirs as object).join()) expect(theirs, at).toEqual(ours);
      for (const [key, value] of Object.entries(ours)) compare(value, (theirs as never)[key], `${at}.${key}`);
    } else if (ours !== theirs && !sameSentence(ours, theirs)) expect(theirs, at).toBe(ours);
  };
  compare(ours, theirs, at);
  return { numbers, lines };
}

function sameSentence(ours: unknown, theirs: unknown): boolean {
  if (typeof ours !== 'string' || typeof theirs !== 'string' || !ours.includes(' ')) return false;
  const [one, other] = [ours, theirs].map((text) => text.split(/(\d+(?:\.\d+)?)/));
  if (one.length !== other.length) return false;
  return one.every((part, i) => {
    if (part === other[i]) return true;
    const digits = part.split('.')[1]?.length ?? 0;
    return i % 2 === 1 && Math.abs(Number(part) - Number(other[i])) < 1.001 * 10 ** -digits;
  });
}
