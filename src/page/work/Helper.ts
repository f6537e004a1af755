import type { Feature } from 'geojson';
import type { Lent, Progress, Question, Reply, Tasks } from './Task';

interface Waiting {
  readonly resolve: (answer: never) => void;
  readonly reject: (error: Error) => void;
  readonly progress: (progress: Progress) => void;
  /** Of the answer, as far as they are here. */
  readonly features: Feature[];
}

/**
 * A worker that the page asks. It runs the page's own script, which is in the file once: where there is no document, that
 * script answers questions in place of showing the page.
 */
export class Helper {
  #worker: Worker | undefined;
  #asked = 0;
  readonly #waiting = new Map<number, Waiting>();

  /** What the worker has been handed, by the numbers it knows that by. */
  readonly #lent = new Map<object, number>();

  /** @throws {Error} with the sentence of what went wrong; `stopped` when nobody waits any more */
  ask<Name extends keyof Tasks>(
    task: Name,
    input: Tasks[Name]['input'],
    progress: (progress: Progress) => void = () => {},
  ): Promise<Tasks[Name]['answer']> {
    this.#worker ??= this.#start();
    const number = ++this.#asked;
    this.#worker.postMessage({ number, task, input } satisfies Question<Name>);
    return new Promise((resolve, reject) => {
      this.#waiting.set(number, { resolve, reject, progress, features: [] });
    });
  }

  /** Ends what it is doing; the next question starts another worker. */
  stop(why = 'stopped'): void {
    this.#worker?.terminate();
    this.#worker = undefined;
    for (const { reject } of this.#waiting.values()) reject(new Error(why));
    this.#waiting.clear();
    this.#lent.clear();
  }

  /** What the next question names: handed over the first time, a number from then on, so that what was found of it is there. */
  lend<T extends object>(value: T): Lent<T> {
    const key = this.#lent.get(value);
    if (key !== undefined) return { key };
    this.#lent.set(value, ++this.#asked);
    return { key: this.#asked, value };
  }

  /** Has the worker forget all that was lent but this. */
  keep(still: ReadonlySet<object>): void {
    const gone = [...this.#lent].filter(([value]) => !still.has(value));
    if (gone.length === 0) return;
    for (const [value] of gone) this.#lent.delete(value);
    // nobody waits for it
    this.ask(
      'giveBack',
      gone.map(([, key]) => key),
    ).catch(() => {});
  }

  #start(): Worker {
    // no module: from disk a browser lets none in
    const worker = new Worker(ownScript());
    worker.addEventListener('message', ({ data }: MessageEvent<Reply>) => {
      const waiting = this.#waiting.get(data.number);
      if (waiting === undefined) return;
      if ('progress' in data) return waiting.progress(data.progress);
      if ('features' in data) return void waiting.features.push(...data.features);
      this.#waiting.delete(data.number);
      if ('fault' in data) waiting.reject(new Error(data.fault));
      else {
        const { features } = waiting;
        waiting.resolve((features.length > 0 ? { ...(data.answer as object), features } : data.answer) as never);
      }
    });
    // out of memory, for one: nobody will answer any more
    worker.addEventListener('error', ({ message }) => this.stop(message || 'the worker ended'));
    return worker;
  }
}

/** Where the page's own script is; made once, as copying it keeps the page waiting. */
let address: string | undefined;

function ownScript(): string {
  if (address === undefined) {
    const script = document.querySelector('script[type=module]')!.textContent;
    address = URL.createObjectURL(new Blob([script], { type: 'text/javascript' }));
  }
  return address;
}
