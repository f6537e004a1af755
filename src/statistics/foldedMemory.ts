/** The distance of a normal error that forgets itself exponentially, as a share of its mean, seen over a stretch. */
export interface FoldedMemory {
  /** Variance of a single distance. */
  readonly variance: number;
  /** As many independent ones would tell as much of the mean. */
  readonly samples: number;
}

/** π/2 − 1: variance of |x| over the square of its mean, for a normal x of mean 0. */
const FOLDED = Math.PI / 2 - 1;
const STEPS = 2000;

/**
 * What the size of a normal error remembers: |x| keeps (√(1 − ρ²) + ρ asin ρ − 1) ÷ (π/2 − 1) of its correlation where x keeps
 * ρ = e^(−t/τ); so size forgets about twice as fast.
 *
 * @param memories - how many times the stretch is longer than τ
 * @see Leone, Nelson, Nottingham, The folded normal distribution, Technometrics 3 (1961); the correlation from the
 * expectation of |xy| for two normal numbers, a textbook integral
 */
export function foldedMemory(memories: number): FoldedMemory {
  // the share of the stretch beyond 30 τ adds nothing
  const furthest = Math.min(1, 30 / memories);
  let sum = 0;
  for (let i = 0; i < STEPS; i++) {
    // finer near 0, where the correlation bends
    const lag = furthest * ((i + 0.5) / STEPS) ** 2;
    const rho = Math.exp(-memories * lag);
    const kept = (Math.sqrt(1 - rho * rho) + rho * Math.asin(rho) - 1) / FOLDED;
    sum += 2 * (1 - lag) * kept * furthest * ((2 * (i + 0.5)) / STEPS ** 2);
  }
  return { variance: FOLDED, samples: 1 / sum };
}
