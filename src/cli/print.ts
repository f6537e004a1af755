import { printable } from './printable';

/** Writes words for people on standard output: names from files are only ever shown. */
export function print(text: string): void {
  process.stdout.write(printable(text));
}
