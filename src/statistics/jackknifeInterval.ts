import type { Interval } from './Interval';
import { studentQuantile } from './studentQuantile';

/**
 * The 95 % interval of an estimate from what it becomes without each block in turn, with Student's t. Not finite where one
 * of these is not.
 *
 * @param without - the estimate once more for each block left out
 * @see Tukey, Bias and confidence in not-quite large samples, Ann. Math. Statist. 29 (1958) (from memory)
 */
export function jackknifeInterval(estimate: number, without: readonly number[]): Interval {
  const blocks = without.length;
  const mean = without.reduce((sum, value) => sum + value / blocks, 0);
  const squares = without.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const half = studentQuantile(0.95, blocks - 1) * Math.sqrt(((blocks - 1) / blocks) * squares);
  return [estimate - half, estimate + half];
}
