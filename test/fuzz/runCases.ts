import { closeSync, openSync, writeSync } from 'node:fs';
import { calledNames } from './callCase';
import { runCase } from './runCase';

/** Cases told of at a time. */
const BATCH = 250;

/** What one stretch of cases is. */
export interface Stretch {
  readonly seed: number;
  readonly from: number;
  readonly to: number;
  /** Cases to be left out. */
  readonly ended: readonly number[];
  /** Eight bytes: the case, and the number of the function that it calls, as they stand whatever becomes of this process. */
  readonly at: string;
}

/** What is told of it, batch by batch. */
export interface Batch {
  readonly next: number;
  readonly cases: Record<string, number>;
  readonly faults: readonly {
    readonly case: number;
    readonly kind: string;
    readonly name: string;
    readonly fault?: string;
  }[];
  readonly slow: number;
}

// Started by fuzz.ts, a process that it can end: runs cases in order and says which one it is at.
process.once('message', async ({ seed, from, to, ended, at }: Stretch) => {
  const file = openSync(at, 'w');
  const place = new Int32Array(2);
  const tell = (index: number, value: number) => {
    place[index] = value;
    writeSync(file, place, 0, 8, 0);
  };
  for (let next = from; next < to; ) {
    const cases: Record<string, number> = {};
    const faults: Batch['faults'][number][] = [];
    let slow = 0;
    for (const end = Math.min(next + BATCH, to); next < end; next++) {
      if (ended.includes(next)) continue;
      place[1] = -1;
      tell(0, next);
      const begun = process.cpuUsage().user;
      const outcome = await runCase(seed, next, (name) => tell(1, calledNames.indexOf(name)));
      if (process.cpuUsage().user - begun > 2e6) slow++;
      const name = `${outcome.kind} ${outcome.name}`;
      cases[name] = (cases[name] ?? 0) + 1;
      if (outcome.fault !== undefined) faults.push({ case: next, ...outcome });
    }
    process.send!({ next, cases, faults, slow } satisfies Batch);
  }
  closeSync(file);
  process.disconnect();
});
