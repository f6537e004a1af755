// Half a turn in so many steps: the integrand is smooth and periodic, so the plain mean over them converges faster than
// any power; 256 leave 1e-13 even where the minor axis is 0.
const STEPS = 256;

/**
 * The radius that holds the share `p` of a normal error about 0 with independent axes of standard deviation `major` and
 * `minor`.
 *
 * @remarks In polar coordinates of the axes scaled to 1 the direction φ is uniform and the radius Rayleigh, so the share
 * beyond r is the mean over φ of exp(−r² / 2(major² cos² φ + minor² sin² φ)).
 */
export function radialQuantile(p: number, major: number, minor: number): number {
  if (major === 0) return 0;
  const ratio2 = (minor / major) ** 2;
  const variances = Float64Array.from({ length: STEPS }, (_, k) => {
    const sine2 = Math.sin((Math.PI * (k + 0.5)) / STEPS) ** 2;
    return 1 - sine2 + ratio2 * sine2;
  });
  const beyond = (radius: number) => {
    let sum = 0;
    for (let k = 0; k < STEPS; k++) sum += Math.exp((-radius * radius) / (2 * variances[k]));
    return sum / STEPS;
  };
  // the circular radius of the major axis is never too small
  let low = 0;
  let high = Math.sqrt(-2 * Math.log1p(-p)) * (1 + 1e-15);
  for (let middle = high / 2; middle > low && middle < high; middle = (low + high) / 2) {
    if (beyond(middle) > 1 - p) low = middle;
    else high = middle;
  }
  return high * major;
}
