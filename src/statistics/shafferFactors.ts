/**
 * By step of a step-down test of all pairs of so many things: the most pairs that can still be alike when as many as were
 * passed are not.
 *
 * @see Shaffer, JASA 81 (1986) 826, §4; the possible numbers of alike pairs S(k) = ∪ {j(j − 1)/2 + x : x ∈ S(k − j)} as in
 * García and Herrera, JMLR 9 (2008) 2677
 */
export function shafferFactors(count: number): number[] {
  const alike: Set<number>[] = [new Set([0])];
  for (let k = 1; k <= count; k++) {
    alike.push(new Set());
    for (let j = 1; j <= k; j++) for (const rest of alike[k - j]) alike[k].add((j * (j - 1)) / 2 + rest);
  }
  const possible = [...alike[count]].sort((a, b) => b - a);
  const pairs = (count * (count - 1)) / 2;
  return Array.from({ length: pairs }, (_, step) => possible.find((some) => some <= pairs - step)!);
}
