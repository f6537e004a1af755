import { WholeFile } from './WholeFile';

/** Writes a file, whole or not at all: beside its place, then put there. What is no file, a pipe for one, is written to. */
export function writeWhole(file: string, text: string): void {
  const whole = new WholeFile(file);
  whole.write(text);
  whole.finish();
}
