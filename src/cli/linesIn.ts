import { createInterface } from 'node:readline';

/** A line of standard input; empty ones are counted too. */
export interface NumberedLine {
  readonly text: string;
  /** From 1. */
  readonly number: number;
}

/** The lines of standard input with something in them. */
export async function* linesIn(): AsyncGenerator<NumberedLine> {
  let number = 0;
  for await (const text of createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY })) {
    number++;
    if (text.trim() !== '') yield { text, number };
  }
}
