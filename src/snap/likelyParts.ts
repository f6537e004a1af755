import type { KnotStates } from './KnotStates';

/** Parts of the route with a smaller share than this aren't spoken of, and no more than so many. */
const LEAST = 0.01;
const MOST = 4;

/** A part of the route, and the share of all paths so far that lead to it. */
export interface LikelyPart {
  readonly bin: number;
  readonly share: number;
}

/**
 * The parts of the route where the body may be at a knot, the one of the heaviest path first, then by their shares.
 *
 * @param part - Bins within which states belong to one part.
 */
export function likelyParts({ size, bin, best, sum }: KnotStates, part: number): LikelyPart[] {
  let all = 0;
  let heaviest = 0;
  for (let k = 0; k < size; k++) {
    all += sum[k];
    if (best[k] > best[heaviest]) heaviest = k;
  }
  const parts: LikelyPart[] = [];
  let left = 1;
  for (let next = size > 0 ? heaviest : -1; next >= 0; ) {
    const middle = bin[next];
    let here = 0;
    for (let k = 0; k < size; k++) if (Math.abs(bin[k] - middle) <= part && isFree(parts, bin[k], part)) here += sum[k];
    parts.push({ bin: middle, share: all > 0 ? here / all : 0 });
    left -= here / all;
    next = -1;
    if (parts.length === MOST || !(left >= LEAST)) break;
    for (let k = 0; k < size; k++) {
      if (sum[k] >= LEAST * all && (next < 0 || sum[k] > sum[next]) && isFree(parts, bin[k], part)) next = k;
    }
  }
  const [first, ...others] = parts;
  return first === undefined ? [] : [first, ...others.sort((a, b) => b.share - a.share)];
}

/** Whether a bin belongs to none of the parts. */
function isFree(parts: readonly LikelyPart[], bin: number, part: number): boolean {
  for (let k = 0; k < parts.length; k++) if (Math.abs(parts[k].bin - bin) <= part) return false;
  return true;
}
