import { type AsyncOptions, stopIfAborted } from './AsyncOptions';
import { pause } from './pause';
import type { Steps } from './Steps';

/** Milliseconds of work before others get their turn: two steps as long as this are still no more than people notice. */
const SLICE = 20;

/** The result of work that lets everything else have its turn whenever a slice of time is over, and stops when it is told to. */
export async function inSlices<Result>(steps: Steps<Result>, { signal, onProgress }: AsyncOptions): Promise<Result> {
  try {
    let begun = performance.now();
    for (;;) {
      stopIfAborted(signal);
      const { done, value } = steps.next();
      if (done) return value;
      if (value) onProgress?.(value);
      if (performance.now() - begun < SLICE) continue;
      await pause();
      begun = performance.now();
    }
  } finally {
    steps.return(undefined as never);
  }
}
