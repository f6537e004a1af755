import { type Scatter, WAVES } from './CosineWaves';
import { exponentialMemory } from './exponentialMemory';

/** Shares of the stretch between which a memory is looked for: white noise, and a column that is all trend. */
const LEAST = 1e-4;
const MOST = 10;
/** So much of the waves' power, from the slowest on, says how slow they are: fast scatter from fix to fix is not asked. */
const SLOW_SHARE = 0.3;
/** Of the logarithm: nobody asks for more; and as many rounds as halving alone would take. */
const CLOSE = 1e-12;
const MOST_ROUNDS = 50;

/**
 * The memory that columns of one stretch have in common, as a share of its length: that of an exponential process whose
 * slowest waves hold as much of the power of all. Columns that don't vary say nothing of it.
 *
 * @see Ridders, A new algorithm for computing a single root, IEEE Trans. Circuits Syst. 26 (1979) 979
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
  const shape = new Float64Array(count);
  /** By how much more of the power is slow with such a memory than was found; grows with it. */
  const more = (logarithm: number) => {
    const { waves } = exponentialMemory(Math.exp(logarithm), count, shape);
    let within = 0;
    let total = 0;
    for (let j = 0; j < count; j++) {
      total += waves[j];
      if (j < slowest) within += waves[j];
    }
    return within / total - share;
  };
  let [low, high] = [Math.log(LEAST), Math.log(MOST)];
  let [below, above] = [more(low), more(high)];
  if (!(below < 0)) return LEAST;
  if (!(above > 0)) return MOST;
  let at = low;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const middle = (low + high) / 2;
    const there = more(middle);
    const last = at;
    at = middle - ((middle - low) * there) / Math.sqrt(there * there - below * above);
    const found = more(at);
    if (found === 0 || Math.abs(at - last) < CLOSE) break;
    if (found < 0) {
      if (there > 0) [high, above] = [middle, there];
      [low, below] = [at, found];
    } else {
      if (there < 0) [low, below] = [middle, there];
      [high, above] = [at, found];
    }
  }
  return Math.exp(at);
}
