import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { answerLine, type LineTask } from './answerLine';
import { sentenceOf } from './explain';
import { mapInOrder } from './mapInOrder';
import { openPool } from './openPool';
import { RouteShelf } from './RouteShelf';
import type { CommandArguments } from './runCommand';

/** Answers every line of standard input with a line on standard output, in the same order. */
export async function answerLines(command: LineTask['command'], { zone, threads }: CommandArguments): Promise<void> {
  const pool = threads === 1 ? undefined : openPool(threads);
  const routes = new RouteShelf();
  const answer = (task: LineTask) =>
    pool ? pool.run<string>('line', task).catch(lost(task)) : answerLine(task, routes);
  try {
    // twice as many lines as threads wait, so that no thread does
    for await (const line of mapInOrder(tasks(command, zone), pool ? 2 * pool.threads : 1, answer)) {
      if (!process.stdout.write(`${line}\n`)) await once(process.stdout, 'drain');
    }
  } finally {
    await pool?.close();
  }
}

/** A line that its thread didn't survive. */
const lost = (task: LineTask) => (error: unknown) =>
  JSON.stringify({ line: task.number, error: { reason: 'failed', message: sentenceOf(error) } });

async function* tasks(command: LineTask['command'], zone: string | undefined): AsyncGenerator<LineTask> {
  let number = 0;
  for await (const text of createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY })) {
    number++;
    if (text.trim() !== '') yield { command, text, number, zone };
  }
}
