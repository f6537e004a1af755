import { sentenceOf } from './explain';
import { tell } from './tell';

/** Ends with a sentence where standard output can't be written. Files are written before anything is printed: none is lost. */
export function hearOutput(): void {
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    // a reader that has seen enough (`| head`) closes the pipe: that is no failure, and the status stays what the run earns
    if (error.code === 'EPIPE') return;
    tell(`standard output: ${sentenceOf(error)}`);
    process.exit(1);
  });
  // nobody is left to be told
  process.stderr.on('error', () => {});
}
