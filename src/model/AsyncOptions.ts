import { checkOptions, type OptionKeys } from './checkOptions';
import { InputError } from './InputError';
import type { Progress } from './Steps';

/** What tells that work is to be left: an `AbortSignal`, of this realm or another. */
export interface StopSignal {
  readonly aborted: boolean;
  readonly reason: unknown;
  addEventListener(type: 'abort', listener: () => void): void;
  removeEventListener(type: 'abort', listener: () => void): void;
}

/** Options of everything that can be waited for. */
export interface AsyncOptions {
  /** Leaves the work: the promise is rejected with the signal's reason, and nothing half done is left. @defaultValue none */
  readonly signal?: StopSignal;
  /** Is told how far the work is, often: what it throws leaves the work. @defaultValue nobody is told */
  readonly onProgress?: (progress: Progress) => void;
}

/**
 * Options taken apart: those of the work itself, and how it is driven.
 *
 * @param keys - those of the work
 * @throws {InputError} `unknown-key`, `wrong-type`
 */
export function asyncOptions<Own extends object>(
  options: (Own & AsyncOptions) | undefined,
  keys: OptionKeys<Own>,
): { readonly own: Own; readonly driven: AsyncOptions } {
  const every = { ...keys, signal: true, onProgress: true } as OptionKeys<Own & AsyncOptions>;
  checkOptions(options, every);
  const { signal, onProgress, ...own } = (options ?? {}) as Own & AsyncOptions;
  const refuse = (argument: string, rule: string, value: unknown) => {
    throw new InputError({ reason: 'wrong-type', argument, rule, value });
  };
  if (signal !== undefined && typeof (signal as StopSignal | null)?.addEventListener !== 'function') {
    refuse('options.signal', 'an AbortSignal', signal);
  }
  if (onProgress !== undefined && typeof onProgress !== 'function') {
    refuse('options.onProgress', 'a function', onProgress);
  }
  return { own: own as unknown as Own, driven: { signal, onProgress } };
}

/** Throws the reason of a signal that is aborted. */
export function stopIfAborted(signal: StopSignal | undefined): void {
  if (signal?.aborted) throw signal.reason;
}
