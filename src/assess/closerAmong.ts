import type { Pair } from './Assessment';

/** By two places in `names`: whether the first of the two lay closer than the second. */
export function closerAmong(
  names: readonly string[],
  pairs: readonly Pick<Pair, 'first' | 'second' | 'closer'>[],
): (i: number, j: number) => boolean {
  const count = names.length;
  const places = new Map(names.map((name, place) => [name, place]));
  const closer = new Uint8Array(count * count);
  for (const pair of pairs) {
    const [first, second] = [places.get(pair.first), places.get(pair.second)];
    if (pair.closer === null || first === undefined || second === undefined) continue;
    closer[pair.closer === pair.first ? first * count + second : second * count + first] = 1;
  }
  return (i, j) => closer[i * count + j] === 1;
}
