import { PerformanceObserver } from 'node:perf_hooks';
import { setImmediate } from 'node:timers/promises';
import { median } from 'd3-array';
import { type GrowthCase, MOST } from './GrowthCase';

/** With these all that the collector of garbage does is done in the thread that is timed, in pauses whose lengths it tells. */
export const FLAGS = ['--expose-gc', '--single-threaded-gc', '--no-incremental-marking'] as const;

/** A size and what it took. */
export interface TimeAtSize extends Spent {
  readonly size: number;
}
interface Spent {
  /** Milliseconds of processor time. */
  readonly time: number;
  /** Those of them that the collector of garbage did not take. */
  readonly own: number;
}

/** Milliseconds that are timed at least, so that the clock and the collector of garbage don't decide. */
const TIMED = 10;
/** Milliseconds and calls in which compilers are done with a job. */
const WARM = 60;
const CALLS = 8;
/** Jobs longer than this are timed once a trial, the median of three else. */
const LONG = 1500;
const ROUNDS = 3;
/** How often what is over its limit is measured again. */
const TRIALS = 3;
/** What an exponent stated may be passed by: the size at which a square is all that counts lies beyond those tried. */
const CLOSE = 0.2;

/**
 * The powers of the size with which time grew from the last size but one to the last, all of it and without the collector's; and
 * whether one of them is no more than stated: what survives a collection is copied, which begins at some size and then is linear.
 */
export function powersOf(
  { stated }: GrowthCase,
  times: readonly TimeAtSize[],
): { power: number; own: number; held: boolean } {
  const [before, last] = times.slice(-2);
  const grown = (of: keyof Spent) => (last ? Math.log10(last[of] / before[of]) : Number.NaN);
  const [power, own] = [grown('time'), grown('own')];
  return { power, own, held: !(Math.min(power, own) > (stated ? stated.exponent + CLOSE : MOST)) };
}

/** What a case takes at n, 10 n and 100 n, as far as none takes more than `longest` milliseconds. */
export async function growthOf(one: GrowthCase, decades: number, longest = 15_000): Promise<TimeAtSize[]> {
  const jobs: { size: number; job: () => unknown; once: Spent }[] = [];
  for (let k = 0; k <= Math.min(decades, one.decades ?? 2); k++) {
    const [before, last] = [jobs.at(-2)?.once.time ?? Infinity, jobs.at(-1)?.once.time ?? 0];
    if (last * Math.max(10, last / before) > longest) break;
    const size = one.least * 10 ** k;
    const job = one.make(size);
    jobs.push({ size, job, once: await warmed(job) });
  }
  // what is over its limit is measured again, and the least disturbed taken of each size: the machine may have had other work
  const least = jobs.map(({ size }) => ({ size, time: Infinity, own: Infinity }));
  for (let trial = 0; ; trial++) {
    const measured = jobs.map((): Spent[] => []);
    for (let round = 0; round < ROUNDS; round++) {
      for (const [k, { job, once }] of jobs.entries()) {
        if (once.time <= LONG) measured[k].push(await spent(job, Math.ceil(TIMED / once.time)));
        else if (round === 0) measured[k].push(trial === 0 ? once : await spent(job, 1));
      }
    }
    for (const [k, those] of measured.entries()) {
      for (const of of ['time', 'own'] as const) {
        least[k][of] = Math.min(least[k][of], median(those, (one) => one[of])!);
      }
    }
    if (trial === TRIALS || powersOf(one, least).held) return least;
  }
}

/** What a job takes when compilers are done with it. */
async function warmed(job: () => unknown): Promise<Spent> {
  globalThis.gc?.();
  let least = await spent(job, 1);
  let all = least.time;
  for (let calls = 1; (calls < CALLS || all < WARM) && all < LONG; ) {
    const times = Math.ceil(TIMED / least.time);
    const once = await spent(job, times);
    if (once.time < least.time) least = once;
    calls += times;
    all += once.time * times;
  }
  return least;
}

const collections = new PerformanceObserver(() => {});
collections.observe({ entryTypes: ['gc'] });
/** Milliseconds by the clock that collections have taken since this was last asked. */
async function collected(): Promise<number> {
  // they are told when what is running is over
  await setImmediate();
  return collections.takeRecords().reduce((sum, { duration }) => sum + duration, 0);
}

/** What one of so many times takes. */
async function spent(job: () => unknown, times: number): Promise<Spent> {
  await collected();
  const [begun, clock] = [process.cpuUsage(), performance.now()];
  for (let i = 0; i < times; i++) await job();
  const passed = performance.now() - clock;
  const { user, system } = process.cpuUsage(begun);
  const time = Math.max(user + system, 1) / 1000 / times;
  // by shares of the clock: where the machine has other work too, a collection and the rest of a job wait alike
  return { time, own: time * Math.max(1 - (await collected()) / passed, 0.01) };
}
