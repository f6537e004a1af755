/** Every way to sort things into groups: the group of each, counted from 0 in the order in which they are met. */
export function* partitions(count: number, groups: readonly number[] = []): Generator<readonly number[]> {
  if (groups.length === count) {
    yield groups;
    return;
  }
  const used = groups.length === 0 ? 0 : Math.max(...groups) + 1;
  for (let group = 0; group <= used; group++) yield* partitions(count, [...groups, group]);
}
