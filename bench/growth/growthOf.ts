import { median } from 'd3-array';
import { type GrowthCase, MOST } from './GrowthCase';

/** A size and what it took. */
export interface TimeAtSize {
  readonly size: number;
  /** Milliseconds of processor time. */
  readonly time: number;
}

/** Milliseconds that are timed at least, so that the clock and the collector of garbage don't decide. */
const TIMED = 10;
/** Milliseconds and calls in which compilers are done with a job. */
const WARM = 60;
const CALLS = 8;
/** Jobs longer than this are timed once, the median of three else. */
const LONG = 1500;
const ROUNDS = 3;
/** How often what is over its limit is measured again. */
const TRIALS = 3;
/** What an exponent stated may be passed by: the size at which a square is all that counts lies beyond those tried. */
const CLOSE = 0.2;

/** The power of the size with which time grew from the last size but one to the last, and whether it is no more than stated. */
export function powerOf({ stated }: GrowthCase, times: readonly TimeAtSize[]): { power: number; held: boolean } {
  const [before, last] = times.slice(-2);
  const power = last ? Math.log10(last.time / before.time) : Number.NaN;
  return { power, held: !(power > (stated ? stated.exponent + CLOSE : MOST)) };
}

/** What a case takes at n, 10 n and 100 n, as far as none takes more than `longest` milliseconds. */
export async function growthOf(one: GrowthCase, decades: number, longest = 15_000): Promise<TimeAtSize[]> {
  const jobs: { size: number; job: () => unknown; once: number }[] = [];
  for (let k = 0; k <= Math.min(decades, one.decades ?? 2); k++) {
    const [before, last] = [jobs.at(-2)?.once ?? Infinity, jobs.at(-1)?.once ?? 0];
    if (last * Math.max(10, last / before) > longest) break;
    const size = one.least * 10 ** k;
    const job = one.make(size);
    jobs.push({ size, job, once: await warmed(job) });
  }
  // what is over its limit is measured again, and the least disturbed taken of each size: the machine may have had other work
  const least = jobs.map(() => Infinity);
  for (let trial = 0; ; trial++) {
    const measured = jobs.map((): number[] => []);
    for (let round = 0; round < ROUNDS; round++) {
      for (const [k, { job, once }] of jobs.entries()) {
        if (once <= LONG) measured[k].push(await spent(job, Math.ceil(TIMED / once)));
        else if (round === 0) measured[k].push(once);
      }
    }
    const times = jobs.map(({ size }, k) => {
      least[k] = Math.min(least[k], median(measured[k])!);
      return { size, time: least[k] };
    });
    if (trial === TRIALS || powerOf(one, times).held) return times;
  }
}

/** Milliseconds that a job takes when compilers are done with it. */
async function warmed(job: () => unknown): Promise<number> {
  globalThis.gc?.();
  let once = await spent(job, 1);
  let all = once;
  for (let calls = 1; (calls < CALLS || all < WARM) && all < LONG; ) {
    const times = Math.ceil(TIMED / once);
    once = await spent(job, times);
    calls += times;
    all += once * times;
  }
  return once;
}

/** Milliseconds of processor time, that of one of so many times. */
async function spent(job: () => unknown, times: number): Promise<number> {
  const begun = process.cpuUsage();
  for (let i = 0; i < times; i++) await job();
  const { user, system } = process.cpuUsage(begun);
  return Math.max(user + system, 1) / 1000 / times;
}
