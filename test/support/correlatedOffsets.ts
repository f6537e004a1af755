import { seeded } from './randomLine';

/** Normal numbers of mean 0 and standard deviation 1, by Box and Muller. */
export function normals(seed: number): () => number {
  const uniform = seeded(seed);
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}

/** Offsets of one a second that forget themselves exponentially: a first-order autoregression, stationary from the start. */
export function correlatedOffsets(
  normal: () => number,
  {
    seconds,
    correlation,
    sigma = 5,
    bias = 0,
  }: { seconds: number; correlation: number; sigma?: number; bias?: number },
): Float64Array {
  const keep = Math.exp(-1 / correlation);
  const fresh = Math.sqrt(1 - keep * keep);
  const offsets = new Float64Array(seconds);
  let error = normal();
  for (let i = 0; i < seconds; i++) {
    if (i > 0) error = keep * error + fresh * normal();
    offsets[i] = bias + sigma * error;
  }
  return offsets;
}

/** Mean of |x| for a normal x: σ √(2/π) e^(−μ²/2σ²) + μ erf(μ/σ√2), the folded normal distribution, by Simpson's rule. */
export function meanAbsoluteOf(bias: number, sigma: number): number {
  const steps = 4000;
  const width = 20 / steps;
  let sum = 0;
  for (let i = 0; i <= steps; i++) {
    const z = -10 + i * width;
    const weight = i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2;
    sum += weight * Math.abs(bias + sigma * z) * Math.exp((-z * z) / 2);
  }
  return (sum * width) / 3 / Math.sqrt(2 * Math.PI);
}
