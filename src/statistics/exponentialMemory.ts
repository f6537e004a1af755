/** What a process of variance 1 that forgets itself exponentially looks like over a stretch of length 1. */
export interface MemoryShape {
  /** Variance of its mean: one over the effective sample size. */
  readonly mean: number;
  /** Mean square of its waves aⱼ, at [j − 1]. */
  readonly waves: Float64Array;
}

/**
 * The shape of a process whose correlation is e^(−s/θ), exact on a stretch of finite length: with α = 1/θ and κ = πj
 *
 *     mean    (2/α)(1 − (1 − e^−α)/α)
 *     waves   2[α − 2α²(1 − (−1)ʲ e^−α)/(α² + κ²)]/(α² + κ²)
 *
 * @param memory - θ, as a share of the stretch; above 0
 * @param squares - where the waves go
 * @see both are double integrals of the correlation over the stretch, the second against two cosines; tested by summing them
 */
export function exponentialMemory(memory: number, waves: number, squares = new Float64Array(waves)): MemoryShape {
  const a = 1 / memory;
  const kept = Math.exp(-a);
  const [even, odd] = [2 * a * a * (1 - kept), 2 * a * a * (1 + kept)];
  for (let j = 1; j <= waves; j++) {
    const inverse = 1 / (a * a + (Math.PI * j) ** 2);
    squares[j - 1] = 2 * (a - (j % 2 === 0 ? even : odd) * inverse) * inverse;
  }
  return { mean: (2 / a) * (1 + Math.expm1(-a) / a), waves: squares };
}
