import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';

/** Worker threads that run what `worker.ts` offers. */
export interface Pool {
  readonly threads: number;
  /** What a thread answers; rejects where the thread is lost over it, or the pool closed before. */
  run<A>(name: 'line' | 'place', task: unknown): Promise<A>;
  close(): Promise<void>;
}

/** What a thread sends back. */
export type Reply = { readonly answer: unknown } | { readonly fault: string };

interface Job {
  readonly question: { readonly name: string; readonly task: unknown };
  readonly resolve: (answer: never) => void;
  readonly reject: (error: Error) => void;
}

/**
 * Megabytes for what is made and soon thrown away, four times what a thread has otherwise: judging makes much of it, and collecting it
 * takes a tenth of the time.
 */
const YOUNG = 192;

/**
 * At most `threads` workers, each started when there is something for it to do. One that is lost fails the task it was on,
 * and no other: the next task starts another.
 */
export function openPool(threads = availableParallelism(), file = new URL('./worker.js', import.meta.url)): Pool {
  const waiting: Job[] = [];
  const idle: Worker[] = [];
  const busy = new Map<Worker, Job>();

  const next = () => {
    while (waiting.length > 0 && (idle.length > 0 || busy.size < threads)) {
      const worker = idle.pop() ?? start();
      const job = waiting.shift()!;
      busy.set(worker, job);
      worker.postMessage(job.question);
    }
  };
  const start = () => {
    const worker = new Worker(file, { resourceLimits: { maxYoungGenerationSizeMb: YOUNG } });
    worker.on('message', (reply: Reply) => {
      const job = busy.get(worker);
      busy.delete(worker);
      idle.push(worker);
      if ('answer' in reply) job?.resolve(reply.answer as never);
      else job?.reject(new Error(reply.fault));
      next();
    });
    worker.on('error', (error) => lose(worker, error as Error));
    worker.on('exit', () => lose(worker, new Error('a worker thread ended before it answered')));
    return worker;
  };
  const lose = (worker: Worker, error: Error) => {
    if (idle.includes(worker)) idle.splice(idle.indexOf(worker), 1);
    const job = busy.get(worker);
    busy.delete(worker);
    job?.reject(error);
    next();
  };

  return {
    threads,
    run: (name, task) =>
      new Promise((resolve, reject) => {
        waiting.push({ question: { name, task }, resolve, reject });
        next();
      }),
    close: async () => {
      for (const { reject } of waiting.splice(0)) reject(new Error('closed before it was asked'));
      await Promise.all([...idle, ...busy.keys()].map((worker) => worker.terminate()));
    },
  };
}
