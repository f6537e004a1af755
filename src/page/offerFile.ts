/** Has the browser save a file, as if it were downloaded. */
export function offerFile(file: Blob, name: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(file);
  link.download = name;
  link.click();
  // not before the browser has taken it
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
