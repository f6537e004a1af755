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
