import { fstatSync } from 'node:fs';
import { cannot } from './CommandError';
import { explain } from './explain';

/** A line of standard input; empty ones are counted too. */
export interface NumberedLine {
  readonly text: string;
  /** From 1. */
  readonly number: number;
  /** Why there is no text. */
  readonly fault?: string;
}

const LINE_END = 10;

/** Bytes of a line, answer included, that one string holds whatever is in it. */
const MOST = 2 ** 28;

/**
 * The lines of standard input with something in them, each up to a line feed, with or without a carriage return before it.
 *
 * What Node offers for it forgets the reading's failure and ends the process over a line that no string holds.
 */
export async function* linesIn(): AsyncGenerator<NumberedLine> {
  let number = 0;
  let parts: Buffer[] = [];
  let length = 0;
  const take = (part: Buffer) => {
    length += part.length;
    if (length <= MOST) parts.push(part);
  };
  const line = (): NumberedLine[] => {
    number++;
    const read = length <= MOST ? textOf(parts) : { text: '', fault: `more than ${MOST} bytes` };
    parts = [];
    length = 0;
    return read.fault !== undefined || read.text.trim() !== '' ? [{ ...read, number }] : [];
  };
  try {
    // of a folder Node hands over nothing, and no fault
    if (fstatSync(0).isDirectory()) throw cannot('standard input', 'is a folder, not a file');
    for await (const chunk of process.stdin as AsyncIterable<Buffer>) {
      let from = 0;
      for (let end = chunk.indexOf(LINE_END); end >= 0; end = chunk.indexOf(LINE_END, from)) {
        take(chunk.subarray(from, end));
        from = end + 1;
        yield* line();
      }
      take(chunk.subarray(from));
    }
  } catch (error) {
    throw explain(error, 'standard input');
  }
  if (length > 0) yield* line();
}

function textOf(parts: readonly Buffer[]): { readonly text: string; readonly fault?: string } {
  try {
    return { text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(Buffer.concat(parts)) };
  } catch {
    return { text: '', fault: 'not UTF-8' };
  }
}
