import type { WalkedPart } from './walkLine';

/** A time spent inside a region, or outside of it. */
export interface Stay {
  /** What of the line was surely there, in order. */
  readonly parts: readonly WalkedPart[];
}

/**
 * The stays of a line: from where it is surely there to where it surely isn't, a stretch that is undecided in between not
 * ending one; a break of the line does.
 */
export function findStays(walked: readonly WalkedPart[], there: 'inside' | 'outside'): Stay[] {
  const stays: { parts: WalkedPart[] }[] = [];
  let open: { parts: WalkedPart[] } | undefined;
  let before: WalkedPart | undefined;
  for (const part of walked) {
    if (before && !goesOn(before, part)) open = undefined;
    before = part;
    if (part.standing === there) {
      if (!open) {
        open = { parts: [] };
        stays.push(open);
      }
      open.parts.push(part);
    } else if (part.standing !== 'undecided') open = undefined;
  }
  return stays;
}

function goesOn(before: WalkedPart, part: WalkedPart): boolean {
  if (before.vertex === part.vertex) return before.to === part.from;
  return before.vertex + 1 === part.vertex && before.to === 1 && part.from === 0;
}
