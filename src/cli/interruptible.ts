import { setImmediate } from 'node:timers/promises';

const signals = ['SIGINT', 'SIGTERM'] as const;

/**
 * Computes something long, during which an interruption ends the command at once, as the system does it: whoever waits in a
 * computation hears nothing before it is over. Nothing may be written meanwhile.
 */
export async function interruptible<Answer>(compute: () => Answer): Promise<Awaited<Answer>> {
  // one that came before is heard, and told, as ever
  await setImmediate();
  const listening = signals.map((signal) => [signal, process.listeners(signal)] as const);
  for (const signal of signals) process.removeAllListeners(signal);
  try {
    return await compute();
  } finally {
    for (const [signal, listeners] of listening) for (const listener of listeners) process.on(signal, listener);
  }
}
