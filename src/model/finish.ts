import type { Steps } from './Steps';

/** The result of work, done without a rest. */
export function finish<Result>(steps: Steps<Result>): Result {
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}
