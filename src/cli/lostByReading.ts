// strings with what tells a key, numbers, and what opens and closes an object; the text is JSON, so that every string is closed
const token = /"([^"\\]*(?:\\.[^"\\]*)*)"?([ \t\r\n]*:)?|-?\d[\d.eE+-]*|[{}]/g;

/** What of a JSON text is lost where it is read, as a sentence: a key that stands twice in an object, a number longer than are kept. */
export function lostByReading(text: string): string | undefined {
  const open: Set<string>[] = [];
  for (const [whole, string, colon] of text.matchAll(token)) {
    if (whole === '{') open.push(new Set());
    else if (whole === '}') open.pop();
    else if (string === undefined) {
      if (!isKept(whole)) return `${whole} has more digits than are kept of a number: write it as a string, "${whole}"`;
    } else if (colon !== undefined) {
      const key: string = JSON.parse(`"${string}"`);
      const keys = open[open.length - 1];
      if (keys.has(key)) return `the key "${key}" stands twice in one object`;
      keys.add(key);
    }
  }
  return undefined;
}

/** Whether a number that is read is the one that was written; of a fraction, whether it is one at all. */
function isKept(number: string): boolean {
  const value = Number(number);
  if (!Number.isFinite(value)) return false;
  return !/^-?\d+$/.test(number) || String(value) === number || BigInt(number) === BigInt(value);
}
