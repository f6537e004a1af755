/** A line on a terminal that is written over; nothing where standard error is none. */
export function showProgress(text: string): void {
  if (process.stderr.isTTY) process.stderr.write(`\r\u001b[K${text}`);
}
