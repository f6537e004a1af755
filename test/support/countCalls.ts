/** How often a method is called while something runs: without a record of each call, so that millions of them can be. */
export function countCalls<T extends object>(prototype: T, method: keyof T, run: () => unknown): number {
  const original = prototype[method] as (...given: unknown[]) => unknown;
  let calls = 0;
  const counting = function (this: T, ...given: unknown[]): unknown {
    calls++;
    return original.apply(this, given);
  };
  prototype[method] = counting as T[keyof T];
  try {
    run();
  } finally {
    prototype[method] = original as T[keyof T];
  }
  return calls;
}
