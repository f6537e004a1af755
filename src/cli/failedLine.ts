import { InputError } from '../model';
import { answerText } from './answerText';
import { CommandError } from './CommandError';
import { sentenceOf } from './explain';
import type { LineAnswer } from './LineTask';

/** The answer to a line that couldn't be worked on: its number and what was asked, with `error`. */
export function failedLine(line: number, asked: object, error: unknown): LineAnswer {
  const reason = error instanceof InputError ? error.reason : error instanceof CommandError ? 'unreadable' : 'failed';
  // what the answer says stands in place of keys of that name in the line
  const { line: _, error: __, ...own } = asked as Readonly<Record<string, unknown>>;
  return { text: answerText(line, { ...own, error: { reason, message: sentenceOf(error) } }), outcome: 'failed' };
}
