/**
 * By step of a step-down test of all pairs of so many things: the most pairs that can still be alike when as many as were
 * passed are not.
 *
 * @see Shaffer, JASA 81 (1986) 826, §4; the possible numbers of alike pairs S(k) = ∪ {j(j − 1)/2 + x : x ∈ S(k − j)} as in
 * García and Herrera, JMLR 9 (2008) 2677
 */
export function shafferFactors(count: number): number[] {
  const pairsOf = (k: number) => (k * (k - 1)) / 2;
  // by how many things: 1 for every number of pairs that can be alike
  const alike = [Uint8Array.of(1)];
  for (let k = 1; k <= count; k++) {
    alike.push(new Uint8Array(pairsOf(k) + 1));
    for (let j = 1; j <= k; j++) {
      const rests = alike[k - j];
      for (let rest = 0; rest < rests.length; rest++) alike[k][pairsOf(j) + rest] |= rests[rest];
    }
  }
  const pairs = pairsOf(count);
  const factors: number[] = [];
  let most = pairs;
  for (let step = 0; step < pairs; step++) {
    while (most > pairs - step || alike[count][most] === 0) most--;
    factors.push(most);
  }
  return factors;
}
