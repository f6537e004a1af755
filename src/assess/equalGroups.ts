/**
 * Names in groups within which every two are equal, as few as come of growing one after the other: each equal pair stands in
 * one of them. Being equal within a margin doesn't carry over from one to the next, so that a name may stand in several.
 *
 * @param names - in the order in which a group names them
 * @param pairs - those that are equal
 */
export function equalGroups(
  names: readonly string[],
  pairs: readonly { readonly first: string; readonly second: string }[],
): string[][] {
  const equal = (a: string, b: string) =>
    pairs.some(({ first, second }) => (first === a && second === b) || (first === b && second === a));
  const groups: string[][] = [];
  for (const { first, second } of pairs) {
    if (groups.some((group) => group.includes(first) && group.includes(second))) continue;
    const group = [first, second];
    for (const name of names) {
      if (!group.includes(name) && group.every((member) => equal(member, name))) group.push(name);
    }
    groups.push(names.filter((name) => group.includes(name)));
  }
  return groups;
}
