/**
 * Letters for things in order: two that share a letter were not told apart.
 *
 * @param told whether the things at two places of the order were told apart
 *
 * @see Piepho, An algorithm for a letter-based representation of all-pairwise comparisons, J. Comput. Graph. Stat. 13
 * (2004), doi:10.1198/1061860043515: insert and absorb
 */
export function tieGroups(count: number, told: (i: number, j: number) => boolean): string[] {
  let groups: Set<number>[] = [new Set(Array.from({ length: count }, (_, i) => i))];
  for (let i = 0; i < count; i++) {
    for (let j = i + 1; j < count; j++) {
      if (!told(i, j)) continue;
      // only a part of a group can be in another one
      const parts = new Set<Set<number>>();
      groups = groups.flatMap((group) => {
        if (!group.has(i) || !group.has(j)) return [group];
        return [j, i].map((left) => {
          const part = new Set(group);
          part.delete(left);
          parts.add(part);
          return part;
        });
      });
      if (parts.size === 0) continue;
      groups = groups.filter(
        (group, a) =>
          !parts.has(group) ||
          !groups.some((other, b) => a !== b && isSubset(group, other) && (group.size < other.size || b < a)),
      );
    }
  }
  groups.sort((a, b) => Math.min(...a) - Math.min(...b) || Math.max(...a) - Math.max(...b));
  return Array.from({ length: count }, (_, i) =>
    groups.map((group, letter) => (group.has(i) ? letterOf(letter) : '')).join(''),
  );
}

function isSubset(inner: Set<number>, outer: Set<number>): boolean {
  if (inner.size > outer.size) return false;
  for (const member of inner) if (!outer.has(member)) return false;
  return true;
}

function letterOf(index: number): string {
  const letter = String.fromCharCode(97 + (index % 26));
  return index < 26 ? letter : letterOf(Math.floor(index / 26) - 1) + letter;
}
