/**
 * Probability that Student's t with a whole number of degrees of freedom lies within ± t.
 *
 * @see Abramowitz & Stegun, Handbook of Mathematical Functions (1964), 26.7.3 and 26.7.4
 */
export function studentWithin(t: number, degrees: number): number {
  const angle = Math.atan(Math.abs(t) / Math.sqrt(degrees));
  const cos2 = Math.cos(angle) ** 2;
  let term = 1;
  let sum = 1;
  if (degrees % 2 === 1) {
    if (degrees === 1) return (2 * angle) / Math.PI;
    for (let k = 3; k < degrees; k += 2) sum += term *= (cos2 * (k - 1)) / k;
    return (2 / Math.PI) * (angle + Math.sin(angle) * Math.cos(angle) * sum);
  }
  for (let k = 2; k < degrees; k += 2) sum += term *= (cos2 * (k - 1)) / k;
  return Math.sin(angle) * sum;
}

/** The t that holds `within` of the probability between −t and t: 0.95 gives the two-sided 95 % quantile. */
export function studentQuantile(within: number, degrees: number): number {
  let low = 0;
  let high = 1;
  while (studentWithin(high, degrees) < within) high *= 2;
  for (let i = 0; i < 100 && high - low > 1e-12 * high; i++) {
    const middle = (low + high) / 2;
    if (studentWithin(middle, degrees) < within) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
