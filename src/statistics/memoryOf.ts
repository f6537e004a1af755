import { type Scatter, WAVES } from './CosineWaves';
import { exponentialMemory } from './exponentialMemory';

/** Shares of the stretch between which a memory is looked for: white noise, and a column that is all trend. */
const LEAST = 1e-4;
const MOST = 10;
/** So much of the waves' power, from the slowest on, says how slow they are: fast scatter from fix to fix is not asked. */
const SLOW_SHARE = 0.3;

/**
 * The memory that columns of one stretch have in common, as a share of its length: that of an exponential process whose
 * slowest waves hold as much of the power of all. Columns that don't vary say nothing of it.
 */
export function memoryOf(columns: readonly Scatter[]): number {
  const moving = columns.filter(({ variance }) => variance > 0);
  const count = Math.min(WAVES, ...moving.map(({ waves }) => waves.length));
  const power = new Float64Array(count);
  let all = 0;
  for (const { waves } of moving) {
    for (let j = 0; j < count; j++) {
      power[j] += waves[j] ** 2;
      all += waves[j] ** 2;
    }
  }
  if (!(all > 0)) return LEAST;
  let slow = 0;
  let slowest = 0;
  while (slow < SLOW_SHARE * all) slow += power[slowest++];
  const share = slow / all;
  const shareOf = (memory: number) => {
    const { waves } = exponentialMemory(memory, count);
    let within = 0;
    let total = 0;
    for (let j = 0; j < count; j++) {
      total += waves[j];
      if (j < slowest) within += waves[j];
    }
    return within / total;
  };
  let low = Math.log(LEAST);
  let high = Math.log(MOST);
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (shareOf(Math.exp(middle)) < share) low = middle;
    else high = middle;
  }
  return Math.exp((low + high) / 2);
}
