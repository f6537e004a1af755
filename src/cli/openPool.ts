import { availableParallelism } from 'node:os';
import { Piscina } from 'piscina';

/** Worker threads that run what `worker.ts` exports, or none of them. */
export interface Pool {
  readonly threads: number;
  run<A>(name: 'line' | 'place', task: unknown): Promise<A>;
  close(): Promise<void>;
}

/** Starts at most `threads` workers, as many as the machine has processors where left out. */
export function openPool(threads = availableParallelism()): Pool {
  const filename = new URL('./worker.js', import.meta.url).href;
  const piscina = new Piscina({ filename, minThreads: threads, maxThreads: threads, idleTimeout: 60_000 });
  return {
    threads,
    run: (name, task) => piscina.run(task, { name }),
    close: () => piscina.destroy(),
  };
}
