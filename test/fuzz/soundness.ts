/** Values looked at in one answer: those of a long one are all alike. */
const MOST = 5000;

/**
 * The place of a number in an answer that is none: NaN or infinite, though in a column NaN stands for a value that is
 * missing. `undefined` where there is none.
 */
export function unsoundAt(answer: unknown): string | undefined {
  let left = MOST;
  const visit = (value: unknown, place: string): string | undefined => {
    if (left-- <= 0) return undefined;
    if (typeof value === 'number') return Number.isFinite(value) ? undefined : `${place} is ${value}`;
    if (ArrayBuffer.isView(value)) {
      if (value instanceof Float64Array || value instanceof Float32Array) {
        const at = value.findIndex((one: number) => Math.abs(one) === Infinity);
        if (at >= 0) return `${place}[${at}] is ${value[at]}`;
      }
      return undefined;
    }
    if (typeof value === 'string') {
      const said = /.{0,30}(?:NaN|Infinity)/.exec(value.replace(/<script>.*?<\/script>/gs, ''));
      return said ? `${place} says ${said[0]}` : undefined;
    }
    if (typeof value !== 'object' || value === null) return undefined;
    for (const [key, member] of Object.entries(value)) {
      const found = visit(member, `${place}.${key}`);
      if (found) return found;
    }
    return undefined;
  };
  return visit(answer, 'answer');
}
