import { printable } from './printable';
import { showProgress } from './showProgress';

/** A sentence on standard error, on a line of its own where a terminal shows progress. */
export function tell(sentence: string): void {
  showProgress('');
  process.stderr.write(`datumline: ${printable(sentence).replace(/[\r\n]+/g, '\uFFFD')}\n`);
}
