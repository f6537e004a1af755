/**
 * Resolves when everything that waits has had its turn. Timers are held back by browsers, four milliseconds each and a second in a
 * page that is not seen; `scheduler.yield` comes before them, so that one that is to abort the work would never run.
 */
export function pause(): Promise<void> {
  return new Promise((resolve) => {
    const { setImmediate } = globalThis as { readonly setImmediate?: (then: () => void) => unknown };
    if (setImmediate) {
      setImmediate(resolve);
      return;
    }
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(null);
  });
}
