/**
 * Probability of p-values as small as these together, were every claim they stand for true: the least of m p₍ᵢ₎ ÷ i. Null
 * without any. Refutes whatever Bonferroni's rule refutes, and more where several are small.
 *
 * @see Simes, An improved Bonferroni procedure for multiple tests of significance, Biometrika 73 (1986) 751
 */
export function simes(pValues: readonly (number | null)[]): number | null {
  const sorted = pValues.filter((p) => p !== null).sort((a, b) => a - b);
  if (sorted.length === 0) return null;
  return Math.min(1, ...sorted.map((p, i) => (sorted.length * p) / (i + 1)));
}
