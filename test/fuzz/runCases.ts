import { parentPort, workerData } from 'node:worker_threads';
import { calledNames } from './callCase';
import { runCase } from './runCase';

/** Cases told of at a time. */
const BATCH = 250;

// Started by fuzz.ts, a thread that it can end: runs cases in order and says which one it is at.
const { seed, from, to, ended, at } = workerData as {
  seed: number;
  from: number;
  to: number;
  /** Cases to be left out. */
  ended: readonly number[];
  /** The case, and the number of the function that it calls. */
  at: Int32Array;
};
for (let next = from; next < to; ) {
  const cases: Record<string, number> = {};
  const faults = [];
  let slow = 0;
  for (const end = Math.min(next + BATCH, to); next < end; next++) {
    if (ended.includes(next)) continue;
    Atomics.store(at, 0, next);
    Atomics.store(at, 1, -1);
    const begun = process.cpuUsage().user;
    const outcome = await runCase(seed, next, (name) => Atomics.store(at, 1, calledNames.indexOf(name)));
    if (process.cpuUsage().user - begun > 2e6) slow++;
    const name = `${outcome.kind} ${outcome.name}`;
    cases[name] = (cases[name] ?? 0) + 1;
    if (outcome.fault !== undefined) faults.push({ case: next, ...outcome });
  }
  parentPort!.postMessage({ next, cases, faults, slow });
}
