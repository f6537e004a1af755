/**
 * Bytes of typed arrays that a call constructs, all told: no less than it holds at once. Counted at the constructors, since
 * the memory that the process reports falls whenever earlier garbage is collected meanwhile.
 */
export function bytesOf(call: () => unknown): number {
  const names = ['Float64Array', 'Float32Array', 'Int32Array', 'Uint32Array', 'Uint16Array', 'Uint8Array'] as const;
  const scope = globalThis as unknown as Record<string, new (...given: unknown[]) => ArrayBufferView>;
  const originals = names.map((name) => scope[name]);
  let bytes = 0;
  names.forEach((name, i) => {
    scope[name] = new Proxy(originals[i], {
      construct(target, given, newTarget) {
        const array = Reflect.construct(target, given, newTarget) as ArrayBufferView;
        if (!(given[0] instanceof ArrayBuffer)) bytes += array.byteLength;
        return array;
      },
    });
  });
  try {
    call();
  } finally {
    names.forEach((name, i) => {
      scope[name] = originals[i];
    });
  }
  return bytes;
}
