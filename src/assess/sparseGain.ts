/**
 * By what share of the mean distance a recording looks closer because straight lines are drawn between its fixes: on such a line
 * the errors of its two ends average out. For normal errors that forget themselves exponentially, with k = 1 − e^(−spacing/memory),
 *
 *     1 − ∫₀¹ √(1 − 2k t(1 − t)) dt = ½ − (a/√b) asinh(½ √(b/a)),  a = 1 − k/2, b = 2k
 *
 * 0 where fixes are close, 0.188 where each errs by itself. Corners that such lines cut are not in it.
 *
 * @param spacing - metres between fixes
 * @param memory - metres after which 1/e of an error is left
 */
export function sparseGain(spacing: number, memory: number): number {
  const k = -Math.expm1(-spacing / memory);
  if (!(k > 1e-6)) return 0;
  const [a, b] = [1 - k / 2, 2 * k];
  return 0.5 - (a / Math.sqrt(b)) * Math.asinh(0.5 * Math.sqrt(b / a));
}
