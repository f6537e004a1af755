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
  const equals = new Map<string, Set<string>>(names.map((name) => [name, new Set()]));
  for (const { first, second } of pairs) {
    equals.get(first)!.add(second);
    equals.get(second)!.add(first);
  }
  const groups: string[][] = [];
  // by name, what it shares a group with
  const together = new Map<string, Set<string>>(names.map((name) => [name, new Set()]));
  for (const { first, second } of pairs) {
    if (together.get(first)!.has(second)) continue;
    const group = new Set([first, second]);
    for (const name of names) {
      if (!group.has(name) && [...group].every((member) => equals.get(member)!.has(name))) group.add(name);
    }
    for (const one of group) for (const other of group) together.get(one)!.add(other);
    groups.push(names.filter((name) => group.has(name)));
  }
  return groups;
}
