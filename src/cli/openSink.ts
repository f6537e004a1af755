import { once } from 'node:events';
import { WholeFile } from './WholeFile';

/** Where answers go, one after the other. */
export interface Sink {
  write(text: string): Promise<void>;
  /** All are there. */
  finish(): void;
}

/** Standard output, or a file that is there when all answers are. */
export function openSink(out: string | undefined): Sink {
  if (out !== undefined) {
    const file = new WholeFile(out);
    return { write: async (text) => file.write(text), finish: () => file.finish() };
  }
  // with nobody to read the answers, there is nothing more to do
  process.stdout.once('error', () => process.exit(0));
  return {
    write: async (text) => {
      if (!process.stdout.write(text)) await once(process.stdout, 'drain');
    },
    finish: () => {},
  };
}
