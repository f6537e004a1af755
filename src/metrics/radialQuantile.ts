// A quarter of a turn in so many steps: the integrand is smooth, periodic and even, so the plain mean over them converges faster
// than any power; 128 leave 1e-13 even where the minor axis is 0.
const STEPS = 128;
const ROUNDS = 60;

/**
 * The radius that holds the share `p` of a normal error about 0 with independent axes of standard deviation `major` and
 * `minor`.
 *
 * @remarks In polar coordinates of the axes scaled to 1 the direction φ is uniform and the radius Rayleigh, so the share
 * beyond r is the mean over φ of exp(−r² / 2(major² cos² φ + minor² sin² φ)). Newton's method on its logarithm, kept between bounds.
 */
export function radialQuantile(p: number, major: number, minor: number): number {
  if (major === 0) return 0;
  const ratio2 = (minor / major) ** 2;
  const halved = new Float64Array(STEPS);
  for (let k = 0; k < STEPS; k++) {
    const sine2 = Math.sin((Math.PI * (k + 0.5)) / (2 * STEPS)) ** 2;
    halved[k] = 0.5 / (1 - sine2 + ratio2 * sine2);
  }
  // the circular radius of the major axis is never too small
  let low = 0;
  let high = Math.sqrt(-2 * Math.log1p(-p)) * (1 + 1e-15);
  let radius = high * Math.max(0.5, Math.sqrt((1 + ratio2) / 2));
  for (let round = 0; round < ROUNDS; round++) {
    let sum = 0;
    let slope = 0;
    for (let k = 0; k < STEPS; k++) {
      const beyond = Math.exp(-radius * radius * halved[k]);
      sum += beyond;
      slope += beyond * 2 * radius * halved[k];
    }
    const apart = Math.log(sum / STEPS / (1 - p));
    if (apart > 0) low = radius;
    else high = radius;
    const next = radius + (apart * sum) / slope;
    if (Math.abs(next - radius) <= 2e-16 * radius) break;
    radius = next > low && next < high ? next : (low + high) / 2;
  }
  return radius * major;
}
